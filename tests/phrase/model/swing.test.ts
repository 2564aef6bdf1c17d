import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expand } from '../../../src/phrase/layers/expand';
import { parseSwing, swingText, swungPartial } from '../../../src/phrase/model/swing';
import { beats } from '../../../src/time/beats';
import { layeredPhrase, phraseOf } from '../phrase-of';

const even = fc.integer({ min: 1, max: 6 }).map((half) => half * 2);
const ratio = fc
  .tuple(fc.integer({ min: 4, max: 16 }), fc.constant(4))
  .map(([n, d]) => beats(n, d));

describe('swungPartial', () => {
  it('lawWarp: keeps the beat, keeps the order, moves nothing earlier, and 1:1 moves nothing', () => {
    fc.assert(
      fc.property(even, ratio, (subdivision, found) => {
        const at = Array.from({ length: subdivision + 1 }, (_, i) =>
          swungPartial(i, subdivision, found),
        );
        expect([at[0]!.valueOf(), at.at(-1)!.valueOf()]).toEqual([0, 1]);
        at.forEach((onset, i) => {
          if (i > 0) expect(onset.compare(at[i - 1]!)).toBe(1);
          expect(onset.compare(beats(i, subdivision))).toBeGreaterThanOrEqual(0);
          expect(swungPartial(i, subdivision, beats(1)).equals(beats(i, subdivision))).toBe(true);
        });
      }),
    );
  });

  it('lawHalf: the middle of the beat divides it as the ratio says', () => {
    fc.assert(
      fc.property(even, ratio, (subdivision, found) => {
        const middle = swungPartial(subdivision / 2, subdivision, found);
        expect(middle.div(beats(1).sub(middle)).equals(found)).toBe(true);
      }),
    );
  });

  it('at 2:1 spreads sixteenths evenly within each part: 0, 1/3, 2/3, 5/6', () => {
    const onsets = [0, 1, 2, 3].map((partial) => swungPartial(partial, 4, beats(2)).toFraction());
    expect(onsets).toEqual(['0', '1/3', '2/3', '5/6']);
  });
});

describe('swing in a phrase', () => {
  const onsets = (layer: number, ...changes: Parameters<typeof layeredPhrase>[1][]) =>
    expand(layeredPhrase({ grouping: 'R L', subdivision: 2 }, ...changes), layer, {
      cycles: 2,
    }).map((note) => note.onset.toFraction());

  it('moves the pickup too, and keeps the written beat beside it', () => {
    const phrase = phraseOf({
      subdivision: 2,
      grouping: 'R L',
      swing: '2:1',
      layers: [{ name: 'a', changes: [{ pickup: [{ partialsBefore: 1, limb: 'L' }] }] }],
    });
    const [pickup, , off] = expand(phrase, 1, { cycles: 1 });
    expect([pickup!.onset.toFraction(), pickup!.beat.toFraction()]).toEqual(['-1/3', '9/2']);
    expect([off!.onset.toFraction(), off!.beat.toFraction()]).toEqual(['2/3', '3/2']);
  });

  it('rests on odd subdivisions and ends with 1:1', () => {
    expect(onsets(2, [{ swing: '3:1' }])).toEqual(['0', '3/4', '1', '7/4']);
    expect(onsets(3, [{ swing: '3:1' }], [{ swing: '1:1' }])).toEqual(['0', '1/2', '1', '3/2']);
    expect(onsets(3, [{ swing: '3:1' }], [{ subdivision: 3 }])).toEqual(['0', '1/3', '2/3', '1']);
  });
});

describe('swing as text', () => {
  it.each(['1:1', '4:1', '3:2', '7:2', '17:10'])('reads and writes %s', (text) => {
    expect(swingText(parseSwing(text)!)).toBe(text);
  });
  it.each(['', '2', '1:2', '9:2', '0:1', '2:0', '2 : 1', '1.5:1', '-2:-1'])(
    'refuses %j',
    (text) => {
      expect(parseSwing(text)).toBeUndefined();
    },
  );
});
