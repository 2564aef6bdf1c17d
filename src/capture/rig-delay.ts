import { median } from 'simple-statistics';
import type { TargetPattern } from '../phrase/decompose/target-pattern';
import { consensus } from './consensus';
import type { BestHearing } from './hearing';
import type { StrokeInBeats } from './played-stroke';

/** A grid that all strokes are late on together, as those of a rig with a delay are. */
export interface LateTogether {
  /** Partials of that grid to the beat. */
  readonly subdivision: number;
  /** How late, roughly: as finely as the strokes were heard. Early is negative. */
  readonly beats: number;
}

/** What is taken off the strokes of a rig that is late. */
export interface RigDelay {
  /** Integer microseconds; early is negative. */
  readonly lateUs: number;
  /** Whether it may as well be another: strokes early for the next partial, and no rig is early. */
  readonly isDoubtful: boolean;
}

/** Grids from so many partials to the beat on are fine enough to be a coarser one that is heard late. Chosen. */
const FINE = 6;
/** Rigs with a cable are this late at most; what is farther off was meant. Chosen, not measured. */
const MOST_MS = 120;
/** Strokes so far behind a partial, as a share of it, may be ahead of the next; and no rig is early. Chosen. */
const DOUBTFUL_FROM = 0.4;

/**
 * What the rig of somebody who played to a click is late, if every stroke is: the grid itself takes off no more
 * than a good player is late. `strokes` are counted in beats of the click.
 */
export function rigDelay(
  strokes: readonly StrokeInBeats[],
  { grid, onGrid, marks, cycle }: BestHearing,
  bpm: number,
): RigDelay | undefined {
  const { subdivision } = grid;
  if (subdivision < FINE || !cycle) return undefined;
  const cyclePartials = cycle.partials;
  const notes = consensus(strokes, onGrid, marks, cyclePartials).notes;
  const late = lateTogether({ subdivision, cyclePartials, notes }, bpm);
  if (!late) return undefined;
  const beats = medianLate(
    strokes.map(({ beat }) => beat),
    late,
  );
  return {
    lateUs: Math.round((beats * 60e6) / bpm),
    isDoubtful: beats < 0 || beats * late.subdivision > DOUBTFUL_FROM,
  };
}

/**
 * Whether a pattern is a coarser one, late: on a fine grid none of its notes ever falls on a partial of the coarser
 * grid, all of them just as far behind it. Undefined when it is not.
 *
 * @param bpm tempo of the click
 * @example lateTogether({ subdivision: 12, cyclePartials: 6, notes: [{ partial: 1 }, { partial: 4 }] }, 90) // => { beats: 1 / 12, subdivision: 4 }
 */
export function lateTogether(
  { subdivision, cyclePartials, notes }: NotesOnGrid,
  bpm: number,
): LateTogether | undefined {
  if (subdivision < FINE || notes.length === 0) return undefined;
  for (let step = subdivision; step > 1; step--) {
    if (subdivision % step !== 0 || cyclePartials % step !== 0) continue;
    const behind = notes[0]!.partial % step;
    if (behind === 0 || notes.some(({ partial }) => partial % step !== behind)) continue;
    const beats = (behind * 2 > step ? behind - step : behind) / subdivision;
    if (Math.abs((beats * 60_000) / bpm) <= MOST_MS)
      return { beats, subdivision: subdivision / step };
  }
  return undefined;
}

type NotesOnGrid = Pick<TargetPattern, 'subdivision' | 'cyclePartials'> & {
  readonly notes: readonly { readonly partial: number }[];
};

/**
 * How late strokes are on a grid, at the median, in beats.
 *
 * @param strokeBeats beats from bar 1 beat 1
 * @example medianLate([0.125, 0.375, 0.625], { beats: 1 / 12, subdivision: 4 }) // => 0.125
 */
export function medianLate(
  strokeBeats: readonly number[],
  { beats, subdivision }: LateTogether,
): number {
  const around = strokeBeats.map((beat) => {
    const rest = beat - beats;
    return beats + rest - Math.round(rest * subdivision) / subdivision;
  });
  return median(around);
}
