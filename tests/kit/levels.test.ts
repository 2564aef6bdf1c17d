import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boundariesOf } from '../../src/kit/boundaries-of';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { withBoundaries } from '../../src/kit/edit-kit';
import { learnLevels, misplacedCount } from '../../src/kit/learn/learn-levels';
import { parseKit, writeKit } from '../../src/kit/parse-kit';

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

  it('are cut in the widest of several equal gaps', () => {
    // One stroke is on the wrong side of every cut from 20 to 21 and from 30 to 79.
    const learned = learnLevels({ ghosts: [20, 30], taps: [22, 80], accents: [120] });
    expect(learned?.ghostMax).toBe(54);
  });

  it('put no more strokes on the wrong side than any other cut, by trying them all', () => {
    const velocities = fc.array(fc.integer({ min: 1, max: 127 }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(velocities, velocities, velocities, (ghosts, taps, accents) => {
        const learned = learnLevels({ ghosts, taps, accents });
        if (!learned) return;
        for (let cut = 1; cut < 127; cut++) {
          expect(misplacedCount(ghosts, taps, learned.ghostMax)).toBeLessThanOrEqual(
            misplacedCount(ghosts, taps, cut),
          );
          expect(misplacedCount(taps, accents, learned.accentMin - 1)).toBeLessThanOrEqual(
            misplacedCount(taps, accents, cut),
          );
        }
      }),
    );
  });

  it('are kept in the file of the kit', () => {
    const kit = withBoundaries(GENERAL_MIDI, 38, { ghostMax: 39, accentMin: 80 });
    const read = parseKit(writeKit(kit));
    expect(read.ok && boundariesOf(read.value, 38)).toEqual({ ghostMax: 39, accentMin: 80 });
  });
});
