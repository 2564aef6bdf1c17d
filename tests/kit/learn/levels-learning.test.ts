import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM } from '../../../src/kit/built-in-kits';
import { KitDecoder } from '../../../src/kit/kit-decoder';
import { NO_LEVELS, strikeLevel } from '../../../src/kit/learn/levels-learning';

/** What is learned of messages of one kit. */
const learn = (messages: readonly (readonly [atMs: number, ...bytes: number[]])[]) => {
  const decoder = new KitDecoder(EDGE_AND_RIM);
  return messages.reduce(
    (learning, [atMs, status = 0, data1 = 0, data2 = 0]) =>
      strikeLevel(learning, decoder.read(atMs * 1000, status, data1, data2)),
    NO_LEVELS,
  );
};

describe('a stroke for a level', () => {
  it('is of the pad that was struck first, and no message of another kind', () => {
    const learning = learn([
      [0, 0xb9, 4, 100],
      [500, 0x99, 38, 30],
      [1000, 0x89, 38, 0],
      [1500, 0x99, 43, 90],
      [2000, 0x99, 38, 32],
    ]);
    expect(learning).toMatchObject({ note: 38, ghosts: [30, 32], taps: [] });
  });

  it('is no second trigger of the one before', () => {
    expect(
      learn([
        [0, 0x99, 38, 30],
        [10, 0x99, 38, 9],
      ]).ghosts,
    ).toEqual([30]);
  });

  it('is none of the foot, which is asked for no level', () => {
    expect(learn([[0, 0x99, 44, 60]])).toBe(NO_LEVELS);
  });
});
