import { median } from 'simple-statistics';
import { VOICES, voiceNumber, type Voice } from '../phrase/model/voice';
import { remainder } from '../time/whole';
import { onePerPlace, type OnGrid } from './place-strokes';
import type { StrokeInBeats } from './played-stroke';

/** A place of the cycle and a voice that was struck there. */
export interface StruckPlace {
  /** Partials from the cycle's start, from 0. */
  readonly partial: number;
  readonly voice: Voice;
  /** In so many rounds it was struck, out of so many that there were. */
  readonly rounds: number;
  readonly of: number;
}

/** A note that the rounds of the cycle agree on. */
export interface ConsensusNote extends StruckPlace {
  /** The middle velocity of its strokes. */
  readonly velocity: number;
  /** Grace notes ahead of it: 0, 1 or 2. */
  readonly graces: number;
  /** In how much of the rounds it was struck, 0 to 1. */
  readonly agreement: number;
  /** Share of its strokes that are as loud as the middle one, within what one level scatters. */
  readonly evenness: number;
}

export interface Consensus {
  readonly notes: readonly ConsensusNote[];
  /** Struck in too few rounds to be notes. */
  readonly strays: readonly StruckPlace[];
}

/** Share of the rounds from which a note counts: the majority. */
const ENOUGH = 0.5;
/** Velocities of one level are no farther from their middle. Chosen, not measured. */
const ONE_LEVEL = 24;

/** What one round has of a note. */
interface Struck {
  /** Of the loudest stroke at its place. */
  readonly velocity: number;
  /** Strokes that may be grace notes of it, the velocity of the last, and of the stroke they lead up to. */
  graces: number;
  graceVelocity: number;
  ledVelocity: number;
}

interface Cell {
  readonly partial: number;
  readonly voice: Voice;
  readonly rounds: Map<number, Struck>;
}

/**
 * The notes that were struck in at least half of the rounds, by partial and voice, and what was struck in fewer.
 * `onGrid` tells each stroke's place from bar 1 beat 1; `marks` which stroke it may be a grace note of, or -1.
 */
export function consensus(
  strokes: readonly StrokeInBeats[],
  onGrid: OnGrid,
  marks: Int32Array,
  cycle: number,
): Consensus {
  const { partials } = onGrid;
  const last = partials.reduce((late, partial) => Math.max(late, partial), 0);
  const possible = (partial: number) => Math.floor((last - partial) / cycle) + 1;
  const notes: ConsensusNote[] = [];
  const strays: StruckPlace[] = [];
  for (const { partial, voice, rounds } of gather(strokes, onGrid, marks, cycle).values()) {
    const struck = [...rounds.values()];
    const of = possible(partial);
    const agreement = struck.length / of;
    if (agreement < ENOUGH) {
      strays.push({ partial, voice, rounds: struck.length, of });
      continue;
    }
    const graces = Math.min(2, Math.round(median(struck.map((stroke) => stroke.graces))));
    const velocities = velocitiesOf(struck, graces);
    const velocity = median(velocities);
    const even = velocities.filter((each) => Math.abs(each - velocity) <= ONE_LEVEL);
    notes.push({
      partial,
      voice,
      velocity,
      graces,
      agreement: Math.min(1, agreement),
      rounds: struck.length,
      of,
      evenness: even.length / velocities.length,
    });
  }
  const inOrder = (a: StruckPlace, b: StruckPlace) =>
    a.partial - b.partial || voiceNumber(a.voice) - voiceNumber(b.voice);
  return { notes: notes.sort(inOrder), strays: strays.sort(inOrder) };
}

/**
 * How loud a note was, round by round: its loudest stroke, unless that is as loud as a grace note and what the
 * grace notes lead up to is a level softer.
 */
function velocitiesOf(struck: readonly Struck[], graces: number): number[] {
  const loudest = struck.map(({ velocity }) => velocity);
  const whole = struck.filter((stroke) => graces > 0 && stroke.graces >= graces);
  if (whole.length < 2) return loudest;
  const led = whole.map(({ ledVelocity }) => ledVelocity);
  const grace = median(whole.map(({ graceVelocity }) => graceVelocity));
  const isSofter = median(led) <= grace - ONE_LEVEL && median(loudest) <= grace + ONE_LEVEL / 2;
  return isSofter ? led : loudest;
}

/**
 * Strokes by place in the cycle and voice, one a round. A stroke that may be a grace note is counted
 * with its main note, and for itself unless the main note's rounds mostly have one.
 */
function gather(
  strokes: readonly StrokeInBeats[],
  onGrid: OnGrid,
  marks: Int32Array,
  cycle: number,
): Map<number, Cell> {
  const { partials } = onGrid;
  const keyOf = (i: number) =>
    remainder(partials[i]!, cycle) * VOICES.length + voiceNumber(strokes[i]!.voice);
  const cells = new Map<number, Cell>();
  const put = (i: number) => {
    const key = keyOf(i);
    let cell = cells.get(key);
    if (!cell) {
      const partial = remainder(partials[i]!, cycle);
      cells.set(key, (cell = { partial, voice: strokes[i]!.voice, rounds: new Map() }));
    }
    const round = Math.floor(partials[i]! / cycle);
    if (!cell.rounds.has(round))
      cell.rounds.set(round, {
        velocity: strokes[i]!.velocity,
        graces: 0,
        graceVelocity: 0,
        ledVelocity: 0,
      });
  };
  onePerPlace(strokes, onGrid, (i) => partials[i]! >= 0 && marks[i]! < 0).forEach(put);
  marks.forEach((main, i) => {
    const rounds = main >= 0 ? cells.get(keyOf(main))?.rounds : undefined;
    const struck = rounds?.get(Math.floor(partials[main]! / cycle));
    if (!struck) return;
    struck.graces++;
    struck.graceVelocity = strokes[i]!.velocity;
    struck.ledVelocity = strokes[main]!.velocity;
  });
  marks.forEach((main, i) => {
    if (main < 0 || partials[i]! < 0) return;
    const struck = [...(cells.get(keyOf(main))?.rounds.values() ?? [])];
    const graced = struck.filter(({ graces }) => graces > 0).length;
    if (graced < struck.length * ENOUGH) put(i);
  });
  return cells;
}
