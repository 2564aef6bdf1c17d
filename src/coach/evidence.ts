import { mean } from 'simple-statistics';
import type { LevelBoundaries } from '../kit/kit';
import type { JudgedNote } from '../score/judged-note';
import type { Judgement } from '../score/judge';
import { isTimed } from '../score/figures';
import type { TakeScore } from '../score/score-take';
import { spread } from '../score/spread';
import { wilson } from '../score/wilson';

/** What the detectors of findings look at: one layer's judged notes and their figures. */
export interface Evidence {
  readonly judgement: Judgement;
  readonly score: TakeScore;
  readonly boundaries: (pad: number) => LevelBoundaries;
  /** Half-width of "in time", ms. */
  readonly toleranceMs: number;
  /** Smallest difference in time worth telling at this density of strokes, ms. */
  readonly noticeableMs: number;
}

/** Offsets that a mean needs before it is told. Chosen, not measured. */
export const MIN_TIMED = 12;
/** Notes that a share needs before it is told. Chosen, not measured. */
export const LEAST_EVIDENCE = 8;
/** Times that something must have happened before it is told. Chosen, not measured. */
export const MIN_TIMES = 3;
/** Standard errors that a difference must exceed: about one false alarm in twenty. */
export const ERRORS = 2;

/** A mean offset and its standard error, ms. */
export interface Place {
  readonly ms: number;
  readonly errorMs: number;
}

/**
 * Mean offset of the notes with SD/√n as its error; undefined for fewer than `least` offsets. Offsets of
 * neighbouring strokes go together (Hennig et al. 2011, PLoS ONE 6(10):e26457), so the true error is
 * somewhat larger; that is why a difference must also be a noticeable one to be told.
 */
export function placeOf(notes: readonly JudgedNote[], least = MIN_TIMED): Place | undefined {
  const offsets = offsetsMs(notes);
  const spreadMs = spread(offsets);
  if (offsets.length < least || spreadMs === undefined) return undefined;
  return { ms: mean(offsets), errorMs: spreadMs / Math.sqrt(offsets.length) };
}

/** Whether `times` of `of` is surely above `share`: by the Wilson lower bound, and not a handful. */
export const surelyAbove = (share: number, times: number, of: number): boolean =>
  times >= MIN_TIMES && of >= LEAST_EVIDENCE && wilson(times, of)!.lower > share;

/** Offsets in ms of the notes that have one. */
export const offsetsMs = (notes: readonly JudgedNote[]): number[] =>
  notes.flatMap((note) =>
    isTimed(note) && note.offsetUs !== undefined ? [note.offsetUs / 1000] : [],
  );
