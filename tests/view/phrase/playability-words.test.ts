import { describe, expect, it } from 'vitest';
import { rateWords } from '../../../src/view/phrase/playability-words';

// 5 to 7 strokes a second of a hand in voluntary tapping, 10 of the fastest drummer: Fujii et al., Neurosci. Lett. 459,
// 2009, abstract; feet were not measured.
describe('a rate against the published ones', () => {
  it.each([
    [0, 'below the 5 to 7 that a hand keeps up'],
    [4.9, 'below the 5 to 7 that a hand keeps up'],
    [5, 'within the 5 to 7 that a hand keeps up'],
    [7, 'within the 5 to 7 that a hand keeps up'],
    [7.1, 'beyond the 5 to 7 that a hand keeps up'],
    [10, 'beyond the 5 to 7 that a hand keeps up'],
    [10.1, 'beyond the 10 of the fastest hand measured'],
  ])('a hand with %d strokes a second is %s', (perSecond, words) => {
    expect(rateWords({ limb: 'L', perSecond })).toBe(words);
  });

  it('says of a foot that there is none for feet', () => {
    expect(rateWords({ limb: 'K', perSecond: 0.8 })).toBe(
      'below the 5 to 7 that a hand keeps up; none is known for feet',
    );
  });
});
