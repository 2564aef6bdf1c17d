import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { groupNumbers, nthOfGroups, numbersInGroups } from '../../../src/phrase/edit/group-numbers';
import { noteSelection } from '../../../src/phrase/edit/note-selection';
import { layerStack } from '../../../src/phrase/layers/layer-stack';
import { LIMBS } from '../../../src/phrase/model/limb';
import { arbitraryPhrase } from '../arbitrary-phrase';
import { layeredPhrase, phraseOf } from '../phrase-of';
import { runCount } from '../../run-count';

const LOCK = phraseOf({ grouping: 'R R L K F', subdivision: 3, cycle: 15 });

describe('strokes counted in each group', () => {
  it('every second right hand of a group is the second, fourth and sixth of the cycle', () => {
    const groups = groupNumbers(layerStack(LOCK, 1), 'R');
    expect(groups).toEqual([
      [1, 2],
      [3, 4],
      [5, 6],
    ]);
    expect(nthOfGroups(groups, [2])).toEqual([2, 4, 6]);
    expect(numbersInGroups(groups, [2, 4, 6])).toEqual([2]);
    expect(numbersInGroups(groups, [1, 2, 3, 4, 5, 6])).toEqual([1, 2]);
    expect(numbersInGroups(groups, [2, 4])).toBeUndefined();
    expect(nthOfGroups(groups, [3])).toBeUndefined();
  });

  it('a group that the cycle cuts off has those that are left of it', () => {
    const groups = groupNumbers(layerStack(phraseOf({ grouping: 'R R L', cycle: 7 }), 1), 'R');
    expect(nthOfGroups(groups, [1])).toEqual([1, 3, 5]);
    expect(nthOfGroups(groups, [2])).toEqual([2, 4]);
    expect(numbersInGroups(groups, [2, 4])).toEqual([2]);
    expect(groupNumbers(layerStack(phraseOf({ grouping: 'R L' }), 1), 'K')).toEqual([[]]);
    expect(numbersInGroups([[]], [])).toBeUndefined();
  });

  it('counts strokes as the layers before left them', () => {
    const phrase = layeredPhrase({ grouping: 'R L L', cycle: 6 }, [
      { where: { positions: [2] }, set: { limb: 'R' } },
    ]);
    expect(groupNumbers(layerStack(phrase, 2), 'R', 0)).toEqual([[1], [2]]);
    expect(groupNumbers(layerStack(phrase, 2), 'R')).toEqual([[1, 2], [3]]);
  });

  it('lawSelectsThem: what is selected by those numbers are the strokes of that number in their group', () => {
    fc.assert(
      fc.property(
        arbitraryPhrase(),
        fc.constantFrom(...LIMBS),
        fc.integer({ min: 1, max: 3 }),
        (phrase, limb, number) => {
          const stack = layerStack(phrase, phrase.layers.length);
          const nth = nthOfGroups(groupNumbers(stack, limb), [number]);
          if (!nth) return;
          const there = stack
            .strokesAfter(stack.grids.length - 1, 1)
            .filter((stroke) => stroke.limb === limb);
          const groupOf = (position: number) => Math.ceil(position / phrase.grouping.length);
          const wanted = there.filter(
            (stroke) =>
              there.filter(
                (other) =>
                  groupOf(other.position) === groupOf(stroke.position) &&
                  other.position <= stroke.position,
              ).length === number,
          );
          expect([...noteSelection(stack, { limb, nth })]).toEqual(
            wanted.filter(({ silent }) => !silent).map(({ position }) => `${position}/${limb}`),
          );
        },
      ),
      { numRuns: runCount(60) },
    );
  });
});
