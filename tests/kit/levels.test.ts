import { describe, expect, it } from 'vitest';
import { boundariesOf } from '../../src/kit/boundaries-of';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { learnLevels, withBoundaries } from '../../src/kit/learn-levels';

describe('levels of a pad', () => {
  it('are the defaults until learned, then the own of that pad only', () => {
    const kit = withBoundaries(GENERAL_MIDI, 38, { ghostMax: 33, accentMin: 90 });
    expect(boundariesOf(kit, 38)).toEqual({ ghostMax: 33, accentMin: 90 });
    expect(boundariesOf(kit, 40)).toEqual({ ghostMax: 50, accentMin: 95 });
  });

  it('are cut in the middle of the gaps', () => {
    expect(learnLevels({ ghosts: [10], taps: [20, 90], accents: [100] })).toEqual({
      ghostMax: 14,
      accentMin: 95,
    });
  });

  it('bear one stroke that went wrong', () => {
    const learned = learnLevels({
      ghosts: [20, 22, 25, 80],
      taps: [60, 62, 70],
      accents: [100, 110, 115],
    });
    expect(learned?.ghostMax).toBeGreaterThanOrEqual(25);
    expect(learned?.ghostMax).toBeLessThan(60);
  });

  it('are not told from strokes that were all alike, nor without one of the levels', () => {
    expect(learnLevels({ ghosts: [64], taps: [64], accents: [64] })).toBeUndefined();
    expect(learnLevels({ ghosts: [], taps: [64], accents: [100] })).toBeUndefined();
  });
});
