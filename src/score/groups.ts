import type { Stroke } from '../kit/stroke';
import { LEVELS, type Level } from '../phrase/model/level';
import { LIMBS, type Limb } from '../phrase/model/limb';
import { VOICES, type Voice } from '../phrase/model/voice';
import { figuresOf, type Figures } from './figures';
import type { JudgedNote } from './judged-note';

/**
 * Figures told apart by what the notes are. Groups without notes are left out; the order is that of
 * the staff, the limbs, the levels, or ascending numbers. Voice, limb and level are the written ones.
 */
export type Grouped<Key> = ReadonlyMap<Key, Figures>;

/** @example byVoice([]).size // => 0 */
export const byVoice = (notes: readonly JudgedNote[]): Grouped<Voice> =>
  figuresBy(notes, ({ due }) => [due.note.voice], inOrderOf(VOICES));

/** @example byLimb([]).size // => 0 */
export const byLimb = (notes: readonly JudgedNote[]): Grouped<Limb> =>
  figuresBy(notes, ({ due }) => [due.note.limb], inOrderOf(LIMBS));

/** @example byLevel([]).size // => 0 */
export const byLevel = (notes: readonly JudgedNote[]): Grouped<Level> =>
  figuresBy(notes, ({ due }) => [due.note.level], inOrderOf(LEVELS));

/**
 * By partial of the cycle, the pickup's negative ones first. Layers of different subdivisions count
 * different partials: give one layer's notes when that matters.
 *
 * @example byPosition([]).size // => 0
 */
export const byPosition = (notes: readonly JudgedNote[]): Grouped<number> =>
  figuresBy(notes, ({ due }) => [due.note.position], ascending);

/**
 * By layer of the phrase: a note counts for every layer that made or changed it.
 *
 * @example byLayer([]).size // => 0
 */
export const byLayer = (notes: readonly JudgedNote[]): Grouped<number> =>
  figuresBy(notes, ({ due }) => due.note.layers, ascending);

export interface WrongVoicePair {
  readonly written: Voice;
  readonly struck: Voice;
  readonly count: number;
}

/**
 * Which voice was struck for which, most frequent first, then in staff order.
 *
 * @example wrongVoices([]) // => []
 */
export function wrongVoices(notes: readonly JudgedNote[]): WrongVoicePair[] {
  const pairs = new Map<string, WrongVoicePair>();
  for (const { verdict, due, stroke } of notes) {
    if (verdict !== 'wrong voice' || !stroke) continue;
    const written = due.note.voice;
    const key = `${written}|${stroke.voice}`;
    const count = (pairs.get(key)?.count ?? 0) + 1;
    pairs.set(key, { written, struck: stroke.voice, count });
  }
  const staff = inOrderOf(VOICES);
  return [...pairs.values()].sort(
    (a, b) => b.count - a.count || staff(a.written, b.written) || staff(a.struck, b.struck),
  );
}

/**
 * How many extra strokes fell on each voice, in staff order.
 *
 * @example [...extrasByVoice([{ voice: 'crash', timeUs: 0, velocity: 90, pad: 49 }])] // => [['crash', 1]]
 */
export function extrasByVoice(extras: readonly Stroke[]): ReadonlyMap<Voice, number> {
  const counts = new Map<Voice, number>();
  for (const { voice } of extras) counts.set(voice, (counts.get(voice) ?? 0) + 1);
  const staff = inOrderOf(VOICES);
  return new Map([...counts].sort(([a], [b]) => staff(a, b)));
}

function figuresBy<Key>(
  notes: readonly JudgedNote[],
  keysOf: (note: JudgedNote) => readonly Key[],
  order: (a: Key, b: Key) => number,
): Grouped<Key> {
  const groups = new Map<Key, JudgedNote[]>();
  for (const note of notes)
    for (const key of keysOf(note)) {
      const group = groups.get(key);
      if (group) group.push(note);
      else groups.set(key, [note]);
    }
  return new Map(
    [...groups].sort(([a], [b]) => order(a, b)).map(([key, group]) => [key, figuresOf(group)]),
  );
}

const ascending = (a: number, b: number) => a - b;
const inOrderOf =
  <Key>(list: readonly Key[]) =>
  (a: Key, b: Key) =>
    list.indexOf(a) - list.indexOf(b);
