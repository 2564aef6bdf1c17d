import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layerStack } from '../../../src/phrase/layers/layer-stack';
import { soundsSame } from '../../../src/phrase/layers/same-sound';
import { targetKey } from '../../../src/phrase/layers/target-key';
import { longRunCount } from '../../run-count';
import { arbitraryPhrase } from '../arbitrary-phrase';
import { layeredPhrase } from '../phrase-of';

const base = { grouping: 'R L R L K', title: 'Slip' };
const accents = { where: { positions: [1, 3] }, set: { level: 'accent' as const } };
const ghosts = { where: { limb: 'L' as const }, set: { level: 'ghost' as const } };

describe('the key of what is to be played', () => {
  const key = targetKey(layeredPhrase(base, [accents], [ghosts]), 3);

  it.each([
    ['another title', layeredPhrase({ ...base, title: 'Copy of Slip' }, [accents], [ghosts]), 3],
    ['another tempo', layeredPhrase({ ...base, tempoBpm: 120 }, [accents], [ghosts]), 3],
    ['layers in another order', layeredPhrase(base, [ghosts], [accents]), 3],
    ['one layer in place of two', layeredPhrase(base, [accents, ghosts]), 2],
    ['a layer more on top', layeredPhrase(base, [accents], [ghosts], [accents]), 3],
  ])('stays with %s', (_, phrase, layer) => {
    expect(targetKey(phrase, layer)).toBe(key);
  });

  it.each([
    ['another layer', layeredPhrase(base, [accents], [ghosts]), 2],
    ['another sticking', layeredPhrase({ ...base, grouping: 'R L R L F' }, [accents], [ghosts]), 3],
    ['another level', layeredPhrase(base, [accents]), 2],
    ['another meter', layeredPhrase({ ...base, meter: '3/4' }, [accents], [ghosts]), 3],
    ['another subdivision', layeredPhrase({ ...base, subdivision: 3 }, [accents], [ghosts]), 3],
    [
      'a pickup',
      layeredPhrase(base, [accents, ghosts, { pickup: [{ partialsBefore: 1, limb: 'R' }] }]),
      2,
    ],
    ['swing', layeredPhrase({ ...base, swing: '2:1' }, [accents], [ghosts]), 3],
    ['displacement', layeredPhrase(base, [accents, ghosts, { displace: 1 }]), 2],
  ])('is another with %s', (_, phrase, layer) => {
    expect(targetKey(phrase, layer)).not.toBe(key);
  });

  it('lawTargetKey: layers with the same key sound the same', () => {
    let same = 0;
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        for (let b = 2; b <= phrase.layers.length; b++)
          for (let a = 1; a < b; a++) {
            if (targetKey(phrase, a) !== targetKey(phrase, b)) continue;
            same++;
            expect(soundsSame(layerStack(phrase, a), layerStack(phrase, b))).toBe(true);
          }
      }),
      { numRuns: longRunCount(1800) },
    );
    expect(same).toBeGreaterThan(10);
  });
});
