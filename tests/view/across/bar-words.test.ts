import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { acrossBar } from '../../../src/notation/across-bar';
import { realignment } from '../../../src/phrase/layers/realignment';
import { slotWidth } from '../../../src/view/across/bar-lines';
import { barWords, realignmentWords } from '../../../src/view/across/bar-words';
import {
  fittedTitle,
  formTempoWords,
  leftOverWords,
  shownBars,
} from '../../../src/view/across/fit-words';
import { markPlace } from '../../../src/view/across/follow-sound';
import { visibleColumns, visibleRows } from '../../../src/view/across/visible-rows';
import { layeredPhrase, phraseOf } from '../../phrase/phrase-of';

const bar = (phrase: ReturnType<typeof phraseOf>, number: number) => {
  const across = acrossBar(phrase, phrase.layers.length);
  return across.partials((number - 1) * across.barPartials, across.barPartials);
};

describe('words of a bar', () => {
  const five = phraseOf({ grouping: 'R L lR L R+K' });

  it('names each start by its place in the bar, as it is counted', () => {
    const across = acrossBar(five, 1);
    expect([1, 2, 5].map((number) => barWords(number, bar(five, number), across))).toEqual([
      'Bar 1: cycles 1 to 4 start on 1, 2e, 3&, 4a',
      'Bar 2: cycles 5 to 7 start on 2, 3e, 4&',
      'Bar 5: cycles 14 to 16 start on 1e, 2&, 3a',
    ]);
    const long = phraseOf({ grouping: 'R L', cycle: 40 });
    expect(barWords(2, bar(long, 2), acrossBar(long, 1))).toBe('Bar 2: no cycle starts');
    const first = (subdivision: number) => {
      const phrase = phraseOf({ grouping: 'R L R L', subdivision });
      return barWords(1, bar(phrase, 1), acrossBar(phrase, 1));
    };
    expect([3, 5].map(first)).toEqual([
      'Bar 1: cycles 1 to 3 start on 1, 2 trip, 3 let',
      'Bar 1: cycles 1 to 5 start on 1, 1 4/5, 2 3/5, 3 2/5, 4 1/5',
    ]);
  });

  it('names the strokes of a pickup', () => {
    const phrase = layeredPhrase({ grouping: 'R L lR L R+K' }, [
      {
        pickup: [
          { limb: 'R', partialsBefore: 2 },
          { limb: 'L', partialsBefore: 1, level: 'ghost' },
        ],
      },
    ]);
    const across = acrossBar(phrase, phrase.layers.length);
    expect(barWords(0, bar(phrase, 0), across)).toBe('Before bar 1, the pickup: R on 4&, L on 4a');
  });

  it('say when cycle start and bar line meet again', () => {
    expect(realignmentWords(realignment(five, 1))).toBe(
      'Cycle start and bar line meet again after 16 cycles, which is 5 bars.',
    );
    const whole = phraseOf({ grouping: 'R L', cycle: 16 });
    expect(realignmentWords(realignment(whole, 1))).toBe('Every cycle starts on beat 1 of a bar.');
  });
});

describe('room', () => {
  it('only the rows near what can be seen are drawn', () => {
    expect(visibleRows({ top: 0, height: 300, row: 100, rows: 500 })).toEqual([0, 1, 2, 3]);
    expect(visibleRows({ top: 49_900, height: 300, row: 100, rows: 500 })).toEqual([498, 499]);
    expect(visibleRows({ top: 0, height: 0, row: 100, rows: 0 })).toEqual([]);
  });

  it('only the partials near what can be seen are drawn', () => {
    const of = (left: number, partials = 384) =>
      visibleColumns({ left, width: 400, slot: 20, partials });
    expect(of(0)).toEqual({ from: 0, to: 32 });
    expect(of(384 * 20 - 400)).toEqual({ from: 352, to: 384 });
    expect(of(0, 16)).toEqual({ from: 0, to: 16 });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 7280 }), (left) => {
        const { from, to } = of(left);
        expect(from * 20).toBeLessThanOrEqual(left);
        expect(Math.min(to * 20, 7680)).toBeGreaterThanOrEqual(left + 400);
      }),
    );
  });

  it('a partial is as wide as there is room for, within limits', () => {
    expect([slotWidth(358, 16), slotWidth(2000, 16), slotWidth(300, 48)]).toEqual([22, 44, 21]);
  });

  it('the mark goes through the bars, and again after the realignment', () => {
    const across = acrossBar(phraseOf({ grouping: 'R L K', meter: '2/4' }), 1);
    const at = (beat: number) => {
      const place = markPlace(beat, across, 30);
      return place && [place.left / 30, place.top];
    };
    const first = at(0)![1]!;
    expect(at(-0.5)).toBeUndefined();
    expect([at(0), at(1.75), at(6)]).toEqual([
      [0, first],
      [7, first],
      [0, first],
    ]);
    expect(at(2)![0]).toBe(0);
    expect(at(2)![1]).toBeGreaterThan(first);
    const led = acrossBar(
      layeredPhrase({ grouping: 'R L K', meter: '2/4' }, [
        { pickup: [{ limb: 'L', partialsBefore: 1 }] },
      ]),
      2,
    );
    expect(markPlace(-0.25, led, 30)).toEqual({ left: 7 * 30, top: first });
    expect(markPlace(0, led, 30)!.top).toBe(at(2)![1]);
    expect(markPlace(-2.5, led, 30)).toBeUndefined();
  });
});

describe('words of a form', () => {
  it('say what is left over', () => {
    const words = (formPartials: number, cycle: number) =>
      leftOverWords(
        {
          formPartials,
          cycles: Math.floor(formPartials / cycle),
          remainingPartials: formPartials % cycle,
        },
        cycle,
      );
    expect([words(128, 5), words(16, 5), words(80, 5)]).toEqual([
      '128 partials hold 25 cycles of 5; 3 partials are left over.',
      '16 partials hold 3 cycles of 5; 1 partial is left over.',
      '80 partials hold 16 cycles of 5; nothing is left over.',
    ]);
  });

  it('say at what tempo it is heard, and at what tempo the phrase is', () => {
    expect(formTempoWords(phraseOf({ meter: '6/8', tempoBpm: 120 }), 105)).toBe(
      'Heard and used at 105 bpm in dotted quarters; the phrase itself is at 120 bpm in dotted quarters.',
    );
  });

  it('the first bar and the last one are shown, with the downbeat it resolves on', () => {
    expect(shownBars(4, 16, 1)).toEqual([
      { name: 'Bar 1', from: 0, partials: 16 },
      { name: 'Bar 4 and the downbeat after it', from: 48, partials: 17 },
    ]);
    expect(shownBars(1, 16, 3)).toEqual([{ name: 'Bar 1', from: 0, partials: 16 }]);
  });

  it('a fitted phrase has a title of its own, however long', () => {
    const fit = { kind: 'rest first', bars: 8 } as const;
    expect(fittedTitle('Slip', fit, [])).toBe('Slip in 8 bars, rest first');
    expect(fittedTitle('Slip', fit, ['Slip in 8 bars, rest first'])).toBe(
      'Slip in 8 bars, rest first, 2',
    );
    expect(fittedTitle('x'.repeat(120), fit, [])).toHaveLength(120);
  });
});
