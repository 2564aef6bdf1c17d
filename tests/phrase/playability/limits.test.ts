import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { limbRates } from '../../../src/phrase/playability/limb-rates';
import { limitsFrom } from '../../../src/phrase/playability/limits';
import { playability } from '../../../src/phrase/playability/playability';
import { arbitraryPhrase } from '../arbitrary-phrase';
import { phraseOf } from '../phrase-of';

// Fujii et al., Neurosci. Lett. 459 (2009) 69-73, abstract: 5 to 7 strokes a second with one hand, the world's
// fastest drummer 10. Sixteenths at 105 bpm are 105 / 60 * 4 = 7 a second, at 150 bpm 10; by hand.
describe('strokes a second of each limb', () => {
  it.each([
    ['R', 105, [['R', 7]]],
    ['R', 150, [['R', 10]]],
    [
      'R L R L',
      105,
      [
        ['R', 3.5],
        ['L', 3.5],
      ],
    ],
    [
      'R+K - - -',
      60,
      [
        ['R', 1],
        ['K', 1],
      ],
    ],
  ] as const)('%s in sixteenths at %i bpm', (grouping, bpm, expected) => {
    const rates = limbRates(phraseOf({ grouping }), 1, bpm);
    expect(rates.map(({ limb, perSecond }) => [limb, perSecond])).toEqual(expected);
  });

  it('the limbs that rest are left out', () => {
    expect(limbRates(phraseOf({ grouping: 'K -' }), 1, 90).map(({ limb }) => limb)).toEqual(['K']);
  });
});

describe('what comes next when it gets faster', () => {
  it('names the tempo and the notes that come first', () => {
    const limits = limitsFrom(phraseOf({ grouping: 'R' }), 1, 100);
    expect(limits.map(({ code, fromBpm }) => [code, fromBpm])).toEqual([
      ['RATE', 105],
      ['BURST', 150],
    ]);
    expect(limitsFrom(phraseOf({ grouping: 'R' }), 1, 106).map(({ code }) => code)).toEqual([
      'BURST',
    ]);
  });

  it('names the notes of the first tempo only, not those that follow at a faster one', () => {
    // Sixteenths 1 2 3 are closer than 100 ms beyond 150 bpm, eighths 9 11 13 only beyond 300.
    const limits = limitsFrom(phraseOf({ grouping: 'R R R - - - - - R - R - R - - -' }), 1, 60);
    const burst = limits.find(({ code }) => code === 'BURST')!;
    expect(burst.notes.map(({ position }) => position)).toEqual(expect.arrayContaining([1, 2, 3]));
    expect(burst.notes.some(({ position }) => position > 3)).toBe(false);
  });

  // The tempo that is felt is limited: 600 eighths a minute in 5/8, 300 in 5/4 and of the dotted beats of 15/8.
  it.each([
    ['5/8', [480]],
    ['5/4', []],
    ['15/8', []],
  ] as const)('looks as far as a phrase in %s may go', (meter, expected) => {
    // Over the cycle's end, from its fifth beat on, eight strokes are struck in eight beats: a second at 480.
    const phrase = phraseOf({ meter, subdivision: 1, grouping: 'R R R - R' });
    expect(limitsFrom(phrase, 1, 100).map(({ fromBpm }) => fromBpm)).toEqual(expected);
  });

  it('the busiest rate is found over the end of a short cycle of eighths', () => {
    const phrase = phraseOf({ meter: '5/8', subdivision: 1, grouping: 'R R R - R' });
    expect(limbRates(phrase, 1, 480)).toEqual([{ limb: 'R', perSecond: 7 }]);
  });

  it('lawLimitsAreEdges: without a problem of that kind at the limit, with it just above', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        const layer = phrase.layers.length;
        for (const { code, fromBpm, sentence, notes } of limitsFrom(phrase, layer, 40)) {
          expect(fromBpm).toBeGreaterThanOrEqual(40);
          expect(notes.length).toBeGreaterThan(0);
          const at = (bpm: number) =>
            playability(phrase, layer, bpm).problems.some((p) => p.sentence === sentence);
          expect([code, at(fromBpm), at(fromBpm + 0.02)]).toEqual([code, false, true]);
        }
      }),
      { numRuns: 20 },
    );
  });
});
