import type { Stroke } from '../../src/kit/stroke';
import type { TimedNote } from '../../src/match/timed-note';
import type { Level } from '../../src/phrase/model/level';
import type { Note } from '../../src/phrase/model/note';
import type { Judgement } from '../../src/score/judge';
import { judgeNote } from '../../src/score/judge';
import type { RequiredLevels } from '../../src/score/level-verdict';
import type { JudgedNote } from '../../src/score/judged-note';
import { beats } from '../../src/time/beats';

export type NoteParts = Partial<Note> & { layer?: number; passage?: number };
/** What answers a note: offset in ms, velocity, voice; undefined for a missed note. */
export type Answer = { offsetMs: number; velocity?: number; voice?: Stroke['voice'] } | undefined;

export const BOUNDARIES = { ghostMax: 50, accentMin: 95 };

/** A note due at `timeMs`, a snare tap of the right hand unless told otherwise. */
export function due(
  timeMs: number,
  { layer = 1, passage = 0, ...note }: NoteParts = {},
): TimedNote {
  return {
    note: {
      onset: beats(Math.round(timeMs), 500),
      graceStep: 0,
      graceOf: undefined,
      bar: 1,
      beat: beats(1),
      cycle: 1,
      position: 1,
      limb: 'R',
      voice: 'snare',
      level: 'tap',
      layers: [layer],
      ...note,
    },
    passage,
    layer,
    timeUs: Math.round(timeMs * 1000),
    reachUs: 100_000,
    toleranceUs: 35_000,
  };
}

/** The levels that notes of each layer have, for notes of no phrase. */
export function writtenLevels(notes: readonly TimedNote[]): (layer: number) => RequiredLevels {
  const has = (layer: number, level: Level) =>
    notes.some((due) => due.layer === layer && due.note.level === level);
  return (layer) => ({ accents: has(layer, 'accent'), ghosts: has(layer, 'ghost') });
}

export function answer(note: TimedNote, given: Answer): JudgedNote {
  const stroke = given && {
    timeUs: note.timeUs + Math.round(given.offsetMs * 1000),
    voice: given.voice ?? note.note.voice,
    velocity: given.velocity ?? 70,
    pad: 38,
  };
  return judgeNote(
    note,
    stroke,
    () => BOUNDARIES,
    () => ({ accents: true, ghosts: true }),
  );
}

/** Notes 250 ms apart with these offsets in ms; undefined where missed. */
export const stream = (
  offsetsMs: readonly (number | undefined)[],
  parts: (i: number) => NoteParts = () => ({}),
): JudgedNote[] =>
  offsetsMs.map((offsetMs, i) =>
    answer(due(i * 250, parts(i)), offsetMs === undefined ? undefined : { offsetMs }),
  );

export const extra = (timeMs: number, voice: Stroke['voice'] = 'crash'): Stroke => ({
  timeUs: Math.round(timeMs * 1000),
  voice,
  velocity: 80,
  pad: 49,
});

export const judgement = (
  notes: readonly JudgedNote[],
  extras: readonly Stroke[] = [],
): Judgement => ({ notes, extras });
