import { describe, expect, it } from 'vitest';
import { assign, matchColumns } from '../../src/match/match-take';

/** Reference and played onsets in seconds, one voice; window in seconds. */
function match(reference: readonly number[], played: readonly number[], window: number) {
  const toUs = (seconds: readonly number[]) =>
    Float64Array.from(seconds, (s) => Math.round(s * 1e6));
  const notes = {
    timeUs: toUs(reference),
    voice: new Uint8Array(reference.length),
    reachUs: new Float64Array(reference.length).fill(window * 1e6),
  };
  const strokes = {
    timeUs: toUs(played),
    voice: new Uint8Array(played.length),
    velocity: new Uint8Array(played.length).fill(80),
  };
  return { pairs: matchColumns(notes, strokes), again: assign(notes, strokes) };
}

/** F, precision and recall of the pairs, as the evaluation of onset detection defines them. */
function fMeasure(reference: readonly number[], played: readonly number[], window: number) {
  const { pairs, again } = match(reference, played, window);
  expect(pairs).toEqual(again);
  const hits = pairs.strokeOfNote.filter((j) => j >= 0).length;
  const precision = hits / played.length;
  const recall = hits / reference.length;
  const f = hits === 0 ? 0 : (2 * precision * recall) / (precision + recall);
  return [f, precision, recall].map((value) => Math.round(value * 1e4) / 1e4);
}

/**
 * Cases of onset evaluation computed with mir_eval 0.8.2 (C), whose matching is of maximum size
 * within the window; where offsets are small against the window the cheapest matching has that size.
 */
describe('onset cases computed with mir_eval 0.8.2 (C)', () => {
  const reference = [0, 0.5, 1, 1.5];

  it.each([
    ['the same', [0, 0.5, 1, 1.5], 0.05, [1, 1, 1]],
    ['one 60 ms late', [0, 0.56, 1, 1.5], 0.05, [0.75, 0.75, 0.75]],
    ['one extra', [0, 0.25, 0.5, 1, 1.5], 0.05, [0.8889, 0.8, 1]],
    ['one missed', [0, 0.5, 1], 0.05, [0.8571, 1, 0.75]],
    ['all 30 ms late, window 50 ms', [0.03, 0.53, 1.03, 1.53], 0.05, [1, 1, 1]],
    ['all 30 ms late, window 25 ms', [0.03, 0.53, 1.03, 1.53], 0.025, [0, 0, 0]],
  ])('%s', (_, played, window, expected) => {
    expect(fMeasure(reference, played, window)).toEqual(expected);
  });

  it('counts one of two strokes for one note', () => {
    expect(fMeasure([0.5], [0.49, 0.51], 0.05)).toEqual([0.6667, 0.5, 1]);
  });

  it('counts one of two notes for one stroke', () => {
    expect(fMeasure([0, 0.06], [0.05], 0.05)).toEqual([0.6667, 1, 0.5]);
  });

  it('does not fall for taking the nearest first', () => {
    const { pairs } = match([1, 1.06], [0.97, 1.03], 0.1);
    expect([...pairs.strokeOfNote]).toEqual([0, 1]);
  });

  it('takes the window edge as inside, in whole microseconds', () => {
    expect(fMeasure([1], [1.05], 0.05)).toEqual([1, 1, 1]);
    expect(fMeasure([1], [1.050001], 0.05)).toEqual([0, 0, 0]);
  });
});
