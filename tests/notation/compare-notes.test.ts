import { describe, expect, it } from 'vitest';
import { vary, type Twist } from '../../src/phrase/vary/vary';
import { compareNotes } from '../../src/notation/compare-notes';
import { libraryPhrases } from '../practice/vary/library-phrases';
import { slipRope } from '../phrase/vary/slip-rope';

const after = (file: object, twist: Twist) => {
  const phrase = slipRope(file);
  const { before, after: changed } = compareNotes(phrase, vary(phrase, twist)!.phrase);
  return [[...before], [...changed]];
};

describe('what another phrase does not sound at that time', () => {
  it('is nothing in the same phrase', () => {
    const phrase = slipRope({ grouping: 'lR L K+F' });
    expect(compareNotes(phrase, phrase)).toEqual({ before: new Set(), after: new Set() });
  });

  it('is another voice', () => {
    const ride: Twist = { kind: 'orchestrate', limb: 'R', voice: 'ride' };
    expect(after({ grouping: 'R L K' }, ride)).toEqual([['1/R'], ['1/R']]);
  });

  it('is a stroke where the other one rests', () => {
    expect(after({ grouping: 'R L K' }, { kind: 'thin out', keep: 2 })[1]).toEqual([]);
    expect(after({ grouping: 'R L K' }, { kind: 'thin out', keep: 2 })[0]).toHaveLength(1);
  });

  it('goes on with the phrase that comes round sooner', () => {
    // R L K R L K R over R L K R L R L: the second cycle of the shorter one counts.
    expect(after({ grouping: 'R L K' }, { kind: 'cycle', cycle: 5 })).toEqual([[], []]);
    expect(after({ grouping: 'R L R K' }, { kind: 'cycle', cycle: 3 })).toEqual([['4/K'], []]);
  });

  it('is told by the time, whatever the subdivision', () => {
    // Three over eighths against three over triplets: only the downbeat coincides.
    const twist: Twist = { kind: 'subdivision', subdivision: 3 };
    expect(after({ grouping: 'R L K', subdivision: 2 }, twist)).toEqual([
      ['2/L', '3/K'],
      ['2/L', '3/K'],
    ]);
  });

  it('is a grace note more', () => {
    const flam = compareNotes(slipRope({ grouping: 'R L K' }), slipRope({ grouping: 'lR L K' }));
    expect([...flam.after]).toEqual(['1/R']);
  });

  it('is found for every twist of every phrase that comes with the app', () => {
    const twists: readonly Twist[] = [
      { kind: 'rotate', by: 1 },
      { kind: 'displace', by: -3 },
      { kind: 'displace', by: 40 },
      { kind: 'subdivision', subdivision: 5 },
      { kind: 'cycle', cycle: 64 },
      { kind: 'mirror' },
      { kind: 'double strokes' },
    ];
    for (const phrase of libraryPhrases())
      for (const twist of twists) {
        const varied = vary(phrase, twist)?.phrase;
        if (!varied) continue;
        const there = compareNotes(phrase, varied);
        const back = compareNotes(varied, phrase);
        expect([there.before, there.after]).toEqual([back.after, back.before]);
      }
  });
});
