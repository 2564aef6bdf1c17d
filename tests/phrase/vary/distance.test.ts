import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pickupNotes, cycleNotes } from '../../../src/phrase/layers/expand';
import type { Phrase } from '../../../src/phrase/model/phrase';
import type { ChangeFile } from '../../../src/phrase/model/phrase-file';
import { distance } from '../../../src/phrase/vary/distance';
import { arbitraryPhrase } from '../arbitrary-phrase';
import { layeredPhrase } from '../phrase-of';
import { runCount } from '../../run-count';

const root = { grouping: 'R - L - R - K -' };
const plain = layeredPhrase(root, [{ where: {}, set: { level: 'tap' } }]);
const changed = (...changes: ChangeFile[]) => layeredPhrase(root, changes);
const played = (phrase: Phrase) =>
  [pickupNotes(phrase, phrase.layers.length), cycleNotes(phrase, phrase.layers.length, 1, 16)]
    .flat()
    .map((n) => [n.onset.toFraction(), n.graceStep, n.limb, n.voice, n.level].join(' '))
    .sort();

describe('distance', () => {
  // Costs worked out by hand from the definition: in or out 1, voice 1, level and grace notes 1/4, 2 for each beat.
  it.each<[string, number, ChangeFile[]]>([
    ['nothing', 0, [{ where: {}, set: { level: 'tap' } }]],
    ['one note out', 1, [{ where: { limb: 'K' }, set: { silent: true } }]],
    ['one note in', 1, [{ add: [{ position: 2, limb: 'F' }] }]],
    ['one note on another voice', 1, [{ where: { limb: 'L' }, set: { voice: 'ride' } }]],
    ['one accent', 0.25, [{ where: { limb: 'L' }, set: { level: 'accent' } }]],
    ['one flam', 0.25, [{ where: { limb: 'L' }, set: { grace: 'flam' } }]],
    ['another hand: out here and in there', 2, [{ where: { positions: [1] }, set: { limb: 'L' } }]],
    ['four notes a quarter of a beat later', 2, [{ displace: 1 }]],
  ])('%s: %f', (_, cost, changes) => {
    expect(distance(plain, changed(...changes))).toBe(cost);
  });

  it('a flam of one hand leaves what the other strikes with it as it was', () => {
    const together = (grouping: string) => layeredPhrase({ grouping });
    expect(distance(together('R+L - K -'), together('lR+L - K -'))).toBe(0.25);
  });

  it('a longer cycle counts by its beats', () => {
    const longer = layeredPhrase({ ...root, grouping: `${root.grouping} - - - -` }, [
      { where: {}, set: { level: 'tap' } },
    ]);
    expect(distance(plain, longer)).toBe(1);
  });

  // Victor & Purpura, J. Neurophysiol. 76 (1996): 0 only for the same train, and symmetric.
  it('lawSymmetric and lawZeroOnlyForTheSame', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), arbitraryPhrase(), (a, b) => {
        const apart = distance(a, b);
        expect(distance(b, a)).toBeCloseTo(apart, 9);
        expect(distance(a, a)).toBe(0);
        if (apart === 0) expect(played(a)).toEqual(played(b));
        else expect(apart).toBeGreaterThan(0);
      }),
      { numRuns: runCount(60) },
    );
  });

  // The published property holds where the two cycles compared are of one length, as after changes of voice, level and hand.
  it('lawTriangle', () => {
    const change = fc.record({
      where: fc.record({ positions: fc.subarray([1, 3, 5, 7], { minLength: 1 }) }),
      set: fc.constantFrom<ChangeFile & object>(
        { where: {}, set: { voice: 'ride' } },
        { where: {}, set: { level: 'ghost' } },
        { where: {}, set: { silent: true } },
      ),
    });
    const phrase = fc
      .array(change, { minLength: 1, maxLength: 3 })
      .map((changes) => changed(...changes.map(({ where, set }) => ({ ...set, where }))));
    fc.assert(
      fc.property(phrase, phrase, phrase, (a, b, c) => {
        expect(distance(a, c)).toBeLessThanOrEqual(distance(a, b) + distance(b, c) + 1e-9);
      }),
      { numRuns: runCount(60) },
    );
  });
});
