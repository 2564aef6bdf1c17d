import type { LevelBoundaries } from '../kit/kit';
import type { Stroke } from '../kit/stroke';
import type { Matching } from '../match/matching';
import type { TimedNote } from '../match/timed-note';
import { verdictOf } from '../match/verdict';
import type { JudgedNote } from './judged-note';
import {
  asksForLevel,
  levelVerdict,
  type LevelVerdict,
  type RequiredLevels,
} from './level-verdict';

/** What became of every note and every stroke: all that figures are read from. */
export interface Judgement {
  /** One per note, in the notes' order. */
  readonly notes: readonly JudgedNote[];
  /** Strokes that answer no note, in the strokes' order. */
  readonly extras: readonly Stroke[];
}

/**
 * Reads verdicts off a matching. The level is judged by the boundaries of the pad really struck, so
 * a wrong voice has a level verdict too.
 *
 * @param boundaries the player's level boundaries for the pad of a stroke; undefined where the stroke tells no level
 * @param asks which levels a layer (1-based) writes
 * @example judge([], [], { strokeOfNote: new Int32Array(0), noteOfStroke: new Int32Array(0) }, () => ({ ghostMax: 50, accentMin: 95 }), () => ({ accents: true, ghosts: true })) // => { notes: [], extras: [] }
 */
export function judge(
  notes: readonly TimedNote[],
  strokes: readonly Stroke[],
  matching: Matching,
  boundaries: (stroke: Stroke) => LevelBoundaries | undefined,
  asks: (layer: number) => RequiredLevels,
): Judgement {
  return {
    notes: notes.map((due, i) => {
      const answer = matching.strokeOfNote[i]!;
      return judgeNote(due, answer < 0 ? undefined : strokes[answer]!, boundaries, asks);
    }),
    extras: strokes.filter((_, i) => matching.noteOfStroke[i]! < 0),
  };
}

/**
 * One note and the stroke that answers it, if one does.
 *
 * @example judgeNote({ note: { voice: 'snare', level: 'tap' }, passage: 0, layer: 1, timeUs: 0, reachUs: 100000, toleranceUs: 35000 }, undefined, () => ({ ghostMax: 50, accentMin: 95 }), () => ({ accents: true, ghosts: true })).verdict // => 'missed'
 */
export function judgeNote(
  due: TimedNote,
  stroke: Stroke | undefined,
  boundaries: (stroke: Stroke) => LevelBoundaries | undefined,
  asks: (layer: number) => RequiredLevels,
): JudgedNote {
  const asked = asks(due.layer);
  return {
    due,
    asked,
    verdict: verdictOf(due, stroke),
    stroke,
    offsetUs: stroke && stroke.timeUs - due.timeUs,
    levelVerdict: stroke && levelOf(due, stroke, boundaries(stroke), asked),
  };
}

function levelOf(
  { note }: TimedNote,
  { velocity }: Stroke,
  boundaries: LevelBoundaries | undefined,
  asked: RequiredLevels,
): LevelVerdict | undefined {
  if (boundaries) return levelVerdict(note, velocity, boundaries, asked);
  return asksForLevel(note.voice, asked) ? undefined : 'as written';
}
