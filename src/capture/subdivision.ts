import { beats } from '../time/beats';
import type { SwingRatio } from '../phrase/model/phrase';
import { swungPartial } from '../phrase/model/swing';
import { clamp } from '../time/whole';
import { graceLeadsMs } from './grace-marks';
import type { StrokeInBeats } from './played-stroke';

/** A way to divide the beat. */
export interface BeatGrid {
  readonly subdivision: number;
  readonly swing: SwingRatio | undefined;
  /** Where the partials sound, in beats from the beat, ascending from 0. */
  readonly places: readonly number[];
  /** How unusual it is, in nats. */
  readonly rareness: number;
}

/** A grid with what it costs to explain the strokes by it, in nats: the less the likelier. */
export interface JudgedGrid {
  readonly grid: BeatGrid;
  readonly cost: number;
}

const SUBDIVISIONS = [1, 2, 3, 4, 5, 6, 7, 8, 12];
/** Long and short, and how unusual. */
const SWINGS = [
  [3, 2, 2],
  [2, 1, 1],
  [5, 2, 6],
  [3, 1, 6],
  [4, 1, 8],
] as const;

/**
 * What a grid costs before anything is heard, in nats: common practice, no source. Swing is written
 * where the trade writes it, so two partials at 2:1 are swung eighths and not a triplet that never
 * plays its middle; everything else that a plain grid explains is a plain grid.
 */
const RARENESS = new Map([
  [5, 3],
  [7, 4],
  [8, 1],
  [12, 3],
]);

/** Strokes that belong to no partial, as a share of all. Chosen, not measured. */
const STRAY = 0.03;
/** Between these, in ms, a player's spread is looked for. Chosen from standards: a good player to a beginner. */
const SPREAD_MS = { least: 3, most: 22 };
/** Grace notes come so long ahead of their main note, in ms, and scatter as two strokes do. Chosen, not measured. */
const GRACE_MS = { ahead: 30, scatter: 16, most: 90 };
/** A main note has two grace notes at most, so no more than this share of the strokes are any. */
const MOST_GRACES = 2 / 3;
const ROUNDS = 6;

/** Every way to divide the beat that capture knows; swing only where the meter's beat is a quarter. */
const beatGrids = (maySwing: boolean): BeatGrid[] => [
  ...SUBDIVISIONS.map((subdivision) => ({
    subdivision,
    swing: undefined,
    rareness: RARENESS.get(subdivision) ?? 0,
    places: Array.from({ length: subdivision }, (_, partial) => partial / subdivision),
  })),
  ...(maySwing ? [2, 4] : []).flatMap((subdivision) =>
    SWINGS.map(([long, short, rareness]) => {
      const swing = beats(long, short);
      const places = Array.from({ length: subdivision }, (_, partial) =>
        swungPartial(partial, subdivision, swing).valueOf(),
      );
      return { subdivision, swing, rareness, places };
    }),
  ),
];

/** Whether a grid is the pulses themselves, so many to a beat, or swing that they stand for. */
const isOfPulses = ({ subdivision, swing, places }: BeatGrid, pulses: number): boolean =>
  subdivision === Math.max(1, pulses) ||
  (swing !== undefined && places.every((place) => isWhole(place * pulses)));
const isWhole = (number: number): boolean => Math.abs(number - Math.round(number)) < 1e-6;

/**
 * The grids by how well they explain where in the beat the strokes fell: a mixture of one normal
 * distribution a partial with a spread in common, and one of grace notes ahead of strokes of the same
 * voice, fitted by expectation and maximisation (Dempster, Laird & Rubin, J. R. Stat. Soc. B 39, 1977)
 * and weighed against the number of its partials (Schwarz, Ann. Stat. 6, 1978). Only those of the pulses where it is
 * known how many make a beat.
 */
export function judgeGrids(
  strokes: readonly StrokeInBeats[],
  beatUs: number,
  maySwing: boolean,
  pulses?: number,
): JudgedGrid[] {
  const phases = strokes.map(({ beat }) => beat - Math.floor(beat));
  const graces = graceDensities(strokes, beatUs);
  const grids = beatGrids(maySwing);
  const ofPulses = grids.filter((grid) => pulses !== undefined && isOfPulses(grid, pulses));
  return (ofPulses.length > 0 ? ofPulses : grids)
    .map((grid) => {
      const any = fit(phases, graces, grid, beatUs, false);
      const even = grid.subdivision === 1 ? any : fit(phases, graces, grid, beatUs, true);
      return { grid, cost: Math.min(any, even) };
    })
    .sort((a, b) => a.cost - b.cost);
}

/** How likely each stroke lies where it does as a grace note of the next stroke of its voice, per beat. */
const graceDensities = (strokes: readonly StrokeInBeats[], beatUs: number): Float64Array =>
  graceLeadsMs(strokes).map((leadMs) =>
    leadMs > GRACE_MS.most
      ? 0
      : normal(leadMs - GRACE_MS.ahead, GRACE_MS.scatter) * (beatUs / 1000),
  );

/** Nats to explain the strokes by a grid: with every partial as likely as the others, or each with its own share. */
function fit(
  phases: readonly number[],
  graces: Float64Array,
  { places, rareness }: BeatGrid,
  beatUs: number,
  isEven: boolean,
): number {
  const least = (SPREAD_MS.least * 1000) / beatUs;
  const most = (SPREAD_MS.most * 1000) / beatUs;
  const likely = new Float64Array(places.length);
  let weights = places.map(() => 0.9 / places.length);
  let graceWeight = 0.1;
  let spread = (12 * 1000) / beatUs;
  let shift = 0;
  let cost = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const share = places.map(() => 0.5);
    let [squares, sum, total, graceShare] = [0, 0, 0, 0];
    cost = 0;
    phases.forEach((phase, i) => {
      let density = STRAY + graceWeight * graces[i]!;
      places.forEach((place, k) => {
        likely[k] = weights[k]! * normal(around(phase - place - shift), spread);
        density += likely[k];
      });
      cost -= Math.log(density);
      graceShare += (graceWeight * graces[i]!) / density;
      places.forEach((place, k) => {
        const part = likely[k]! / density;
        const offset = around(phase - place);
        share[k]! += part;
        sum += part * offset;
        squares += part * (offset - shift) ** 2;
        total += part;
      });
    });
    if (total === 0) break;
    shift = clamp(sum / total, -most, most);
    spread = clamp(Math.sqrt(squares / total), least, most);
    const main = share.reduce((a, b) => a + b, 0);
    graceWeight = Math.min(MOST_GRACES, graceShare / (main + graceShare));
    weights = share.map((part) => (isEven ? 1 / places.length : part / main) * (1 - graceWeight));
  }
  const shares = isEven ? 0 : places.length - 1;
  return cost + (shares / 2) * Math.log(phases.length + 1) + rareness;
}

const normal = (offset: number, spread: number): number =>
  Math.exp(-0.5 * (offset / spread) ** 2) / (spread * Math.sqrt(2 * Math.PI));

/** A difference of phases to its nearest whole beat, -1/2 to 1/2. */
const around = (beat: number): number => beat - Math.round(beat);
