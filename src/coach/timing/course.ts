import { linearRegression, median } from 'simple-statistics';
import type { Stroke } from '../../kit/stroke';
import type { TimedNote } from '../../match/timed-note';
import type { Voice } from '../../phrase/model/voice';
import { firstFrom } from '../../time/first-from';
import { groupBy } from '../../time/group-by';
import type { Units } from '../evidence/units';

/** Where the player is, unit by unit: beside the click, however far. */
export interface CoursePoint {
  /** Middle of the unit in the written time, integer microseconds. */
  readonly timeUs: number;
  /** How much later than written it is played, microseconds; early is negative. */
  readonly shiftUs: number;
}

/** Written time in which the tempo is found before anything else is known. Chosen, not measured. */
const FIRST_US = 8_000_000;
/** Tempi looked for: played over written beat length. Chosen, not measured: beyond, nobody plays along. */
const FARTHEST_RATIO = 0.12;
/** So fine that a stroke at the end of the first stretch still falls beside its note. */
const RATIO_STEP = 0.002;
/** A stroke so near to where a note would be answers it. Chosen, not measured: three spreads of a steady player. */
const NEAR_US = 30_000;
/** How far ahead or behind a player may begin, microseconds. */
const STARTS_US = [0, -45_000, 45_000] as const;
/** Another tempo has to explain so much more of the notes than the click's does. Chosen, not measured. */
const MUCH_MORE = 0.2;
/** Share of a unit's notes that have to be met for it to say where the player is. Chosen, not measured. */
const ENOUGH = 1 / 2;
const FEWEST_MET = 4;
/** Points from which a tempo is told, and as many as it rests on: fewer scatter, more lag behind. Chosen, not measured. */
const FEWEST_FOR_TEMPO = 3;
const MOST_FOR_TEMPO = 5;
/** The reach is a partial at most, and from half a partial on a stroke answers the neighbouring note. */
const PART_OF_REACH = 0.45;

/**
 * Follows a player through the notes, which are in time order, beyond the hit windows: first the tempo of the first
 * seconds that meets most notes, then unit by unit where the strokes of the written voices lie beside the prediction.
 * Units in which too few are met have no point.
 */
export function courseOf(
  notes: readonly TimedNote[],
  strokes: readonly Stroke[],
  units: Units,
): CoursePoint[] {
  const nearest = nearestStroke(strokes);
  const first = notes.filter(({ timeUs }) => timeUs - notes[0]!.timeUs < FIRST_US);
  const start = firstTempo(first, nearest);
  const points: CoursePoint[] = [];
  for (let from = 0; from < notes.length;) {
    let to = from + 1;
    while (to < notes.length && units.of[to] === units.of[from]) to++;
    const unit = notes.slice(from, to);
    const timeUs = Math.round((unit[0]!.timeUs + unit.at(-1)!.timeUs) / 2);
    const slope = slopeOf(points) ?? start.slope;
    const last = points.at(-1) ?? { timeUs: notes[0]!.timeUs, shiftUs: start.startUs };
    const ahead = last.shiftUs + slope * (timeUs - last.timeUs);
    // Whoever is not where the tempo leads may have come back to the click.
    const shiftUs =
      shiftIn(unit, timeUs, ahead, slope, nearest) ?? shiftIn(unit, timeUs, 0, 0, nearest);
    if (shiftUs !== undefined) points.push({ timeUs, shiftUs });
    from = to;
  }
  return points;
}

/** The tempo of the last points, less one: their line of least squares; undefined for too few. */
function slopeOf(points: readonly CoursePoint[]): number | undefined {
  if (points.length < FEWEST_FOR_TEMPO) return undefined;
  return linearRegression(
    points.slice(-MOST_FOR_TEMPO).map(({ timeUs, shiftUs }) => [timeUs, shiftUs]),
  ).m;
}

/** Where a unit is played, if it is where it is looked for: the shift at `middleUs`, which changes with the slope. */
function shiftIn(
  unit: readonly TimedNote[],
  middleUs: number,
  aheadUs: number,
  slope: number,
  nearest: Nearest,
): number | undefined {
  const beside = unit.flatMap(({ note, timeUs, reachUs }) => {
    const dueUs = timeUs + aheadUs + slope * (timeUs - middleUs);
    const offUs = nearest(note.voice, dueUs) - dueUs;
    return Math.abs(offUs) <= PART_OF_REACH * reachUs ? [offUs] : [];
  });
  if (beside.length < Math.max(FEWEST_MET, ENOUGH * unit.length)) return undefined;
  return aheadUs + median(beside);
}

type Nearest = (voice: Voice, timeUs: number) => number;

const timeOf = ({ timeUs }: Stroke) => timeUs;

/** When the stroke of a voice that is nearest to a time fell, Infinity where there is none. */
function nearestStroke(strokes: readonly Stroke[]): Nearest {
  const byVoice = groupBy(strokes, ({ voice }) => voice);
  for (const ofVoice of byVoice.values()) ofVoice.sort((a, b) => a.timeUs - b.timeUs);
  return (voice, timeUs) => {
    const ofVoice = byVoice.get(voice) ?? [];
    const after = firstFrom(ofVoice, timeOf, timeUs);
    const before = ofVoice[after - 1]?.timeUs ?? -Infinity;
    const next = ofVoice[after]?.timeUs ?? Infinity;
    return timeUs - before <= next - timeUs ? before : next;
  };
}

/** The tempo at which most of the notes are met, less one, and where the player begins; the click's own where no other meets many more. */
function firstTempo(notes: readonly TimedNote[], nearest: Nearest) {
  const clickMet = Math.max(...STARTS_US.map((startUs) => met(notes, nearest, 0, startUs)));
  let best = { slope: 0, startUs: 0, met: clickMet + MUCH_MORE * notes.length };
  if (best.met >= notes.length) return best;
  for (let slope = -FARTHEST_RATIO; slope <= FARTHEST_RATIO; slope += RATIO_STEP)
    for (const startUs of STARTS_US) {
      const count = met(notes, nearest, slope, startUs);
      if (count > best.met) best = { slope, startUs, met: count };
    }
  return best;
}

function met(
  notes: readonly TimedNote[],
  nearest: Nearest,
  slope: number,
  startUs: number,
): number {
  const first = notes[0]?.timeUs ?? 0;
  let count = 0;
  for (const { note, timeUs } of notes) {
    const dueUs = timeUs + startUs + slope * (timeUs - first);
    if (Math.abs(nearest(note.voice, dueUs) - dueUs) <= NEAR_US) count++;
  }
  return count;
}
