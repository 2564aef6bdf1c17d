import { describe, expect, it } from 'vitest';
import { notesWords, rateWords, upToWords } from '../../../src/view/phrase/playability-words';

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

it.each([
  [300, 'Nothing stands in the way up to 300 bpm.'],
  [299.9, 'All of it can be played up to 299 bpm.'],
  [30.5, 'All of it can be played up to 30 bpm.'],
  [0, 'Part of it cannot be played at any tempo.'],
])('says up to which tempo all can be played: %d', (playableUpToBpm, words) => {
  expect(upToWords({ playableUpToBpm, problems: [], difficulty: 0 }, 300)).toBe(words);
});

describe('notes in question', () => {
  const right = (position: number) => ({ position, limb: 'R', voice: 'snare' }) as const;

  it('are named limb by limb and voice by voice, each place once, a pickup ahead', () => {
    const notes = [
      right(4),
      { position: 2, limb: 'K', voice: 'bass drum' },
      right(1),
      right(4),
      right(-2),
    ] as const;
    expect(notesWords(notes)).toBe(
      'right hand on snare: pickup, 2 ahead, positions 1, 4; right foot on bass drum: position 2',
    );
  });

  it.each([
    [12, '1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12'],
    [13, '1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12 and 1 more'],
  ])('are counted from the thirteenth on: %i', (count, places) => {
    const notes = Array.from({ length: count }, (_, i) => right(i + 1));
    expect(notesWords(notes)).toBe(`right hand on snare: positions ${places}`);
  });
});
