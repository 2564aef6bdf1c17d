import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { acrossBar } from '../../src/notation/across-bar';
import { countedInCycle } from '../../src/notation/counted-in-cycle';
import { startRows } from '../../src/notation/start-rows';
import { fitForm } from '../../src/phrase/form/fit-form';
import { expand } from '../../src/phrase/layers/expand';
import { realignment } from '../../src/phrase/layers/realignment';
import { arbitraryPhrase } from '../phrase/arbitrary-phrase';
import { layeredPhrase, phraseOf } from '../phrase/phrase-of';
import { runCount } from '../run-count';

const bar = (phrase: ReturnType<typeof phraseOf>, number: number) => {
  const across = acrossBar(phrase, phrase.layers.length);
  return across.partials((number - 1) * across.barPartials, across.barPartials);
};
const line = (phrase: ReturnType<typeof phraseOf>, number: number) => {
  const partials = bar(phrase, number);
  return [
    partials.map(({ count }) => count).join(' '),
    partials.map(({ strokes }) => strokes.map((s) => s.sticking).join('+') || '-').join(' '),
    partials.map(({ cycle, position }) => (cycle > 0 ? position : '.')).join(' '),
  ];
};

describe('a bar counted both ways', () => {
  const five = phraseOf({ grouping: 'R L lR L R+K' });

  it('the second bar of five over sixteenths begins on the second position of the fourth cycle', () => {
    expect(line(five, 2)).toEqual([
      '1 e & a 2 e & a 3 e & a 4 e & a',
      'L lR L R+K R L lR L R+K R L lR L R+K R L',
      '2 3 4 5 1 2 3 4 5 1 2 3 4 5 1 2',
    ]);
  });

  it('nothing sounds before a phrase that starts later, and one that starts earlier is under way', () => {
    const later = layeredPhrase({ grouping: 'R L K', meter: '2/4' }, [{ displace: 2 }]);
    expect(line(later, 1).slice(1)).toEqual(['- - R L K R L K', '. . 1 2 3 1 2 3']);
    const earlier = layeredPhrase({ grouping: 'R L K', meter: '2/4' }, [{ displace: -2 }]);
    expect(line(earlier, 1).slice(1)).toEqual(['K R L K R L K R', '3 1 2 3 1 2 3 1']);
  });

  it('shows the pickup in a bar of its own', () => {
    const phrase = layeredPhrase({ grouping: 'R L lR L R+K' }, [
      {
        pickup: [
          { limb: 'R', partialsBefore: 2 },
          { limb: 'L', partialsBefore: 1, level: 'ghost' },
        ],
      },
    ]);
    const across = acrossBar(phrase, phrase.layers.length);
    expect(across.lead).toBe(1);
    expect(line(phrase, 0)).toEqual([
      '1 e & a 2 e & a 3 e & a 4 e & a',
      '- - - - - - - - - - - - - - R L',
      '. . . . . . . . . . . . . . . .',
    ]);
    expect(acrossBar(phrase, 1).lead).toBe(0);
  });

  // The least common multiple of 5 and 16 is 80: five bars, sixteen cycles.
  it('goes as far as the realignment', () => {
    expect(acrossBar(five, 1)).toMatchObject({ bars: 5, period: 80, start: 0 });
  });

  it('says the same as a table', () => {
    const rows = startRows(five, 1, realignment(five, 1));
    expect(rows.slice(3, 6)).toEqual([
      { cycle: 4, bar: 1, beat: '4 3/4', count: 'a', atBarLine: 'position 1' },
      { cycle: 5, bar: 2, beat: '2', count: '2', atBarLine: 'position 2' },
      { cycle: 6, bar: 2, beat: '3 1/4', count: 'e', atBarLine: 'position 2' },
    ]);
  });

  it('lawSameNotes: what a bar shows is what the phrase asks for in it', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        const layer = phrase.layers.length;
        const { barPartials, subdivision, lead, partials } = acrossBar(phrase, layer);
        const asked = expand(phrase, layer, { bars: 3 })
          .filter(({ graceStep }) => graceStep === 0)
          .map((note) => {
            if (note.cycle === 0) return `${note.position} ${note.limb} ${note.level}`;
            const inBar = note.beat.sub(1).mul(subdivision).valueOf();
            return `${(note.bar - 1) * barPartials + inBar} ${note.limb} ${note.level}`;
          });
        const shown = partials(-lead * barPartials, (lead + 3) * barPartials).flatMap(
          ({ partial, strokes }) =>
            strokes.map(({ sticking, level }) => `${partial} ${sticking.at(-1)!} ${level}`),
        );
        expect(shown.sort()).toEqual([...asked].sort());
      }),
      { numRuns: runCount(60) },
    );
  });

  it('lawStartsAgree: the starts in the bars are those of the realignment', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        const layer = phrase.layers.length;
        const { barPartials, partials, bars } = acrossBar(phrase, layer);
        const { starts } = realignment(phrase, layer);
        const shown = partials(0, Math.min(bars, 40) * barPartials)
          .filter(({ cycle, position }) => position === 1 && cycle >= 1 && cycle <= starts.length)
          .map(({ partial, cycle }) => [cycle, Math.floor(partial / barPartials) + 1]);
        const said = starts
          .filter((start) => start.bar >= 1 && start.bar <= Math.min(bars, 40))
          .map((start) => [start.cycle, start.bar]);
        expect(shown).toEqual(said);
      }),
      { numRuns: runCount(60) },
    );
  });
});

describe('a phrase written out over a form is counted in the cycle it had', () => {
  const five = phraseOf({ grouping: 'R L R L K', tempoBpm: 60 });
  const counted = (kind: 'cut the last cycle' | 'add a tail', beat: number, from: number) => {
    const form = fitForm(five, 1, 1, beat);
    const { phrase } = form.fits.find((fit) => fit.kind === kind)!;
    const partials = acrossBar(phrase, phrase.layers.length).partials(from, 17 - from);
    return countedInCycle(partials, { kind, left: form, cycle: 5, formPartials: 16 })
      .map(({ cycle, position }) => (cycle > 0 ? `${cycle}.${position}` : '.'))
      .join(' ');
  };

  // 16 partials hold 3 cycles of 5 and 1 partial; up to beat 4 are 12: 2 cycles and 2 partials.
  it.each([
    ['cut the last cycle', 1, '3.2 3.3 3.4 3.5 4.1 5.1'],
    ['add a tail', 1, '3.2 3.3 3.4 3.5 . 4.1'],
    ['cut the last cycle', 4, '3.2 4.1 . . . 4.1'],
    ['add a tail', 4, '. 3.1 . . . 3.1'],
  ] as const)('%s, resolving on %i', (kind, beat, expected) => {
    expect(counted(kind, beat, 11)).toBe(expected);
  });
});
