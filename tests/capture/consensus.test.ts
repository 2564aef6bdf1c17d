import { expect, it } from 'vitest';
import { consensus } from '../../src/capture/consensus';

/** A snare on partial 0 of every round of four partials, and a ride on partial 2 of some. */
function ridesOf(rounds: number, withRide: number) {
  const snares = Array.from({ length: rounds }, (_, r) => ({
    partial: 4 * r,
    voice: 'snare' as const,
  }));
  const rides = Array.from({ length: withRide }, (_, r) => ({
    partial: 4 * r + 2,
    voice: 'ride' as const,
  }));
  const end = { partial: 4 * rounds - 1, voice: 'bass drum' as const };
  const all = [...snares, ...rides, end];
  const strokes = all.map(({ partial, voice }) => ({
    timeUs: partial * 100_000,
    beat: partial / 4,
    velocity: 80,
    pad: 38,
    voice,
  }));
  const partials = Int32Array.from(all, ({ partial }) => partial);
  const offsets = new Float64Array(all.length);
  const notes = consensus(strokes, { partials, offsets }, new Int32Array(all.length).fill(-1), 4);
  return notes.filter(({ voice }) => voice === 'ride').map(({ agreement }) => agreement);
}

it.each([
  [4, 2, [2 / 4]],
  [4, 1, []],
  [5, 3, [3 / 5]],
  [5, 2, []],
  [9, 4, []],
  [9, 5, [5 / 9]],
])('of %i rounds with a stroke in %i a note is kept from half on', (rounds, struck, agreement) => {
  expect(ridesOf(rounds, struck)).toEqual(agreement);
});
