import { describe, expect, it } from 'vitest';
import { safePairs } from '../../src/match/safe-pairs';

/** The pairs fixed before anything is searched, of notes and strokes as [time, voice] with a reach of 100. */
function safe(
  notes: readonly (readonly [number, number])[],
  strokes: readonly (readonly [number, number])[],
): number[] {
  const columns = (list: readonly (readonly [number, number])[]) => ({
    timeUs: Float64Array.from(list, ([timeUs]) => timeUs),
    voice: Uint8Array.from(list, ([, voice]) => voice),
  });
  const { strokeOfNote, noteOfStroke } = safePairs(
    { ...columns(notes), reachUs: Float64Array.from(notes, () => 100) },
    { ...columns(strokes), velocity: Uint8Array.from(strokes, () => 80) },
    100,
  );
  strokeOfNote.forEach((j, i) => j >= 0 && expect(noteOfStroke[j]).toBe(i));
  noteOfStroke.forEach((i, j) => i >= 0 && expect(strokeOfNote[i]).toBe(j));
  return [...strokeOfNote];
}
const of5 = (...times: number[]) => times.map((timeUs) => [timeUs, 5] as const);

describe('pairs that are safe', () => {
  it.each([
    ['nearer than half the reach, late', of5(0), of5(49), [0]],
    ['half the reach away, late', of5(0), of5(50), [-1]],
    ['nearer than half the reach, early', of5(0), of5(-49), [0]],
    ['half the reach away, early', of5(0), of5(-50), [-1]],
    ['nearer than half the way to the next note', of5(0, 60), of5(29, 60), [0, 1]],
    ['half the way to the next note', of5(0, 60), of5(30, 60), [-1, -1]],
    ['nearer than half the way to the note before', of5(0, 60), of5(0, 31), [0, 1]],
    ['half the way to the note before', of5(0, 60), of5(0, 30), [-1, -1]],
    [
      'nearer than half the way, and the next note far off',
      of5(0, 40, 140),
      of5(0, 59, 140),
      [0, 1, 2],
    ],
    ['half the way, and the next note far off', of5(0, 40, 140), of5(0, 60, 140), [-1, -1, 2]],
    ['of an even row, every one', of5(0, 125, 250, 375), of5(9, 120, 249, 380), [0, 1, 2, 3]],
    ['of another voice', of5(0), [[0, 6]], [-1]],
    [
      'of two voices at once, each its own',
      [
        [0, 5],
        [0, 6],
      ],
      [
        [1, 6],
        [2, 5],
      ],
      [1, 0],
    ],
    ['two strokes for one note', of5(0), of5(-10, 10), [-1]],
    ['three strokes for one note', of5(0), of5(-10, 5, 10), [-1]],
    ['two strokes for one note, and the next far off', of5(0, 500), of5(-10, 10, 501), [-1, 2]],
  ] as const)('%s', (_, notes, strokes, answers) => {
    expect(safe(notes, strokes)).toEqual(answers);
  });

  // Let go where a missed note or an extra stroke costs as much as moving the stroke to it.
  it.each([
    ['a missed note half the reach away', of5(0, 50), of5(0), [-1, -1]],
    ['a missed note farther away', of5(0, 51), of5(0), [0, -1]],
    ['a missed note farther away, later on', of5(1000, 1051), of5(1000), [0, -1]],
    ['a missed note half the reach before', of5(-50, 0), of5(0), [-1, -1]],
    ['a missed note farther before', of5(-51, 0), of5(0), [-1, 0]],
    ['an extra stroke half the reach away', of5(0), of5(0, 50), [-1]],
    ['an extra stroke farther away', of5(0), of5(0, 51), [0]],
    [
      'a missed note of another voice at once',
      [
        [0, 5],
        [0, 6],
      ],
      of5(0),
      [-1, -1],
    ],
    [
      'a missed note of another voice a little later',
      [
        [0, 5],
        [1, 6],
      ],
      of5(0),
      [0, -1],
    ],
    [
      'an extra stroke of another voice at once',
      of5(0),
      [
        [0, 5],
        [0, 6],
      ],
      [-1],
    ],
    [
      'an extra stroke of another voice a little later',
      of5(0),
      [
        [0, 5],
        [1, 6],
      ],
      [0],
    ],
    // The pair is 20 apart, so that its price is 20: 2·60 to the missed note is as much as 100 + 20.
    ['a missed note that the stroke is 60 from', of5(0, 80), of5(20), [-1, -1]],
    ['a missed note that the stroke is 61 from', of5(0, 81), of5(20), [0, -1]],
    // As far away as anything can be wanted: the pair's price is 49, and 2·74 is less than 100 + 49, 2·75 is more.
    ['a missed note that the stroke is 74 before', of5(0, 123), of5(49), [-1, -1]],
    ['a missed note that the stroke is 75 before', of5(0, 124), of5(49), [0, -1]],
    ['a missed note that the stroke is 74 after', of5(-123, 0), of5(-49), [-1, -1]],
    ['a missed note that the stroke is 75 after', of5(-124, 0), of5(-49), [-1, 0]],
    ['an extra stroke that the note is 74 before', of5(0), of5(49, 74), [-1]],
    ['an extra stroke that the note is 75 before', of5(0), of5(49, 75), [0]],
    ['an extra stroke that the note is 74 after', of5(0), of5(-74, -49), [-1]],
    ['an extra stroke that the note is 75 after', of5(0), of5(-75, -49), [1]],
    // The stroke of the second pair could go to the missed note, then that of the third to the second.
    ['a row after a missed note', of5(0, 50, 100), of5(50, 100), [-1, -1, -1]],
    ['a row before a missed note', of5(0, 50, 100), of5(0, 50), [-1, -1, -1]],
    ['a row beside an extra stroke', of5(0, 50), of5(0, 50, 100), [-1, -1]],
  ] as const)('beside %s', (_, notes, strokes, answers) => {
    expect(safe(notes, strokes)).toEqual(answers);
  });
});
