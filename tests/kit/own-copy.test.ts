import { describe, expect, it } from 'vitest';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { withBoundaries } from '../../src/kit/learn-levels';
import { ownCopy } from '../../src/kit/own-copy';

describe('the kit that takes in what was learned', () => {
  const first = withBoundaries(ownCopy(GENERAL_MIDI, [GENERAL_MIDI], 'levels'), 38, {
    ghostMax: 40,
    accentMin: 88,
  });

  it('is the same copy the second time, with what was learned before', () => {
    const again = ownCopy(GENERAL_MIDI, [GENERAL_MIDI, first], 'levels');
    expect(again).toBe(first);
    const both = withBoundaries(again, 48, { ghostMax: 35, accentMin: 90 });
    expect(both.pads.filter(({ ghostMax }) => ghostMax).map(({ note }) => note)).toEqual([38, 48]);
  });

  it('is the player’s own kit where one is played', () => {
    expect(ownCopy(first, [GENERAL_MIDI, first], 'levels')).toBe(first);
  });

  it('is another copy for another thing learned', () => {
    expect(ownCopy(GENERAL_MIDI, [GENERAL_MIDI, first], 'crosstalk')).toEqual({
      ...GENERAL_MIDI,
      title: 'General MIDI percussion, my crosstalk',
    });
  });
});
