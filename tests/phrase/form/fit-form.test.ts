import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expand } from '../../../src/phrase/layers/expand';
import { fitForm, leftOver, type FitKind } from '../../../src/phrase/form/fit-form';
import { gridAt } from '../../../src/phrase/model/grid';
import { layerShape } from '../../../src/phrase/layers/layer-shape';
import type { Note } from '../../../src/phrase/model/note';
import { checkPhrase, parsePhrase } from '../../../src/phrase/file/parse-phrase';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { playability } from '../../../src/phrase/playability/playability';
import { realignment } from '../../../src/phrase/layers/realignment';
import { arbitraryPhrase } from '../arbitrary-phrase';
import { libraryPhrases } from '../library-phrases';
import { noteGrid } from '../note-grid';
import { phraseFile, layeredPhrase, phraseOf } from '../phrase-of';
import { runCount } from '../../run-count';

const linear = (n: number) =>
  ['K', ...Array.from({ length: n - 1 }, (_, i) => 'RL'[i % 2])].join(' ');
const fits = (phrase: Phrase, bars: number, beat = 1) => {
  const found = fitForm(phrase, phrase.layers.length, bars, beat);
  return new Map(found.fits.map((fit) => [fit.kind, fit.phrase] as const));
};
const fitted = (phrase: Phrase, kind: FitKind, bars: number, beat = 1) => {
  const found = fits(phrase, bars, beat).get(kind);
  if (!found) throw new Error(`no "${kind}"`);
  return found;
};
/** Partials of the groups' first strokes, the bass drum in these phrases, in so many bars. */
const starts = (phrase: Phrase, bars: number) =>
  expand(phrase, phrase.layers.length, { bars })
    .filter(({ limb }) => limb === 'K')
    .map(({ onset }) => onset.mul(4).valueOf());
const word = (n: Note) => [n.onset.toFraction(), n.graceStep, n.limb, n.voice, n.level].join(' ');

// Group n over bars of b partials: after k bars what Euclid's division of k * b by n leaves over, worked out by
// hand; nothing is left where the least common multiple says they coincide, 5 over 16 after 5 bars, 7 after 7.
describe('whole cycles in a form, and what is left over', () => {
  it.each([
    [5, '4/4', 1, 3, 1],
    [5, '4/4', 4, 12, 4],
    [5, '4/4', 5, 16, 0],
    [7, '4/4', 7, 16, 0],
    [7, '4/4', 8, 18, 2],
    [3, '4/4', 2, 10, 2],
    [3, '4/4', 3, 16, 0],
    [11, '3/4', 4, 4, 4],
    [5, '5/4', 1, 4, 0],
    [9, '4/4', 32, 56, 8],
  ])('group of %i in %s, %i bars: %i cycles and %i partials', (n, meter, bars, cycles, left) => {
    const phrase = phraseOf({ grouping: linear(n), meter, tempoBpm: 60 });
    const found = fitForm(phrase, 1, bars);
    expect([found.cycles, found.remainingPartials]).toEqual([cycles, left]);
    expect(found.fits.map(({ kind }) => kind)).toEqual(
      left === 0
        ? ['as it is']
        : ['cut the last cycle', 'rest first', 'start displaced', 'add a tail'],
    );
    if (left === 0)
      expect(realignment(phrase, 1).bars).toBe(realignment(found.fits[0]!.phrase, 1).bars);
  });
});

describe('five over two bars of sixteenths, two partials left', () => {
  const five = phraseOf({ grouping: linear(5), tempoBpm: 60 });
  it.each([
    ['cut the last cycle', [0, 5, 10, 15, 20, 25, 30, 32]],
    ['rest first', [2, 7, 12, 17, 22, 27, 32]],
    ['start displaced', [2, 7, 12, 17, 22, 27, 32]],
    ['add a tail', [0, 5, 10, 15, 20, 25, 32]],
  ] as const)('%s', (kind, expected) => {
    expect(starts(fitted(five, kind, 2), 3).filter((partial) => partial <= 32)).toEqual(expected);
  });

  it('rests first or plays the end of a cycle first', () => {
    const first = (kind: FitKind) =>
      expand(fitted(five, kind, 2), 2, { bars: 1 })[0]!.onset.toFraction();
    expect([first('rest first'), first('start displaced')]).toEqual(['1/2', '0']);
  });

  it('the tail is played hand to hand', () => {
    const tail = expand(fitted(five, 'add a tail', 2), 2, { bars: 2 }).slice(-2);
    expect(tail.map(({ limb, position }) => [limb, position])).toEqual([
      ['R', 31],
      ['L', 32],
    ]);
  });

  it('on an inner beat the first stroke falls on it and the form rests', () => {
    const phrase = fitted(five, 'cut the last cycle', 1, 4);
    expect(noteGrid(phrase, 2)).toEqual([
      'snare: - R L R L - R L R L - R - - - -',
      'bass drum: K - - - - K - - - - K - K - - -',
    ]);
  });

  it.each([
    ['cut the last cycle', 'Last cycle cut', 'bass drum: K - - - - K - - - - - - K - - -'],
    ['add a tail', 'Tail', 'bass drum: K - - - - K - - - - - - K - - -'],
  ] as const)('%s: a layer of its own over the whole cycles', (kind, name, before) => {
    const phrase = fitted(five, kind, 1, 4);
    expect(phrase.layers.map((layer) => layer.name)).toEqual(['Sticking', name]);
    expect(noteGrid(phrase, 1)[1]).toBe(before);
    const fresh = expand(phrase, 2, { cycles: 1 }).filter(({ layers }) => layers.includes(2));
    expect(fresh.map(({ position }) => position)).toEqual([11, 12]);
  });
});

describe.each(libraryPhrases())('$name in a form', ({ text }) => {
  it('every way is one layer over the phrase as it was', () => {
    const parsed = parsePhrase(text);
    if (!parsed.ok) throw new Error('it cannot be read');
    const phrase = parsed.value;
    const { fits: found } = fitForm(phrase, phrase.layers.length, 13);
    expect(found.length).toBeGreaterThan(0);
    for (const { kind, phrase: made } of found) {
      const names = phrase.layers.map(({ name }) => name);
      const isChanged = kind !== 'as it is';
      expect(made.layers.slice(0, names.length).map(({ name }) => name)).toEqual(names);
      expect(made.layers.length).toBe(names.length + (isChanged ? 1 : 0));
    }
  });
});

describe('ways that are open say how', () => {
  const told = (phrase: Phrase, bars: number, beat: number) =>
    fitForm(phrase, 1, bars, beat).fits.map(({ sentence }) => sentence);

  it('what is left over, and where it resolves', () => {
    const five = phraseOf({ grouping: linear(5), cycle: 20, tempoBpm: 60 });
    // By hand: 128 = 6 * 20 + 8; up to beat 3 of bar 5 are 72 = 3 * 20 + 12; five bars are 80 = 4 * 20.
    expect(told(five, 8, 1)).toEqual([
      'The last cycle is cut after 8 partials, so that it resolves after 8 bars.',
      'The phrase rests for 8 partials first, so that a cycle ends after 8 bars.',
      'The phrase starts 12 partials into its cycle, so that a cycle ends after 8 bars.',
      'After the last whole cycle a tail of 8 strokes hand to hand leads to where it resolves, after 8 bars.',
    ]);
    expect(told(five, 5, 3)[0]).toBe(
      'The last cycle is cut after 12 partials, so that it resolves on beat 3 of bar 5.',
    );
    expect(told(five, 5, 1)).toEqual(['Whole cycles end after 5 bars; nothing needs to change.']);
  });
});

describe('ways that are not open say why', () => {
  const told = (phrase: Phrase, bars: number, beat = 1) =>
    fitForm(phrase, phrase.layers.length, bars, beat).refused.map(({ kind, reason }) => [
      kind,
      reason,
    ]);

  it('no whole cycle fits in', () => {
    const reason = 'No whole cycle fits into 16 partials; choose more bars.';
    expect(told(phraseOf({ grouping: linear(5), cycle: 20, tempoBpm: 60 }), 1)).toEqual([
      ['rest first', reason],
      ['add a tail', reason],
    ]);
  });

  it('the form is too long to be written out', () => {
    const reason =
      'The form has 768 partials, and a cycle that is written out has at most 512; choose fewer bars.';
    const sextuplets = phraseOf({ grouping: linear(5), subdivision: 6, tempoBpm: 60 });
    expect(told(sextuplets, 32)).toEqual([
      ['cut the last cycle', reason],
      ['add a tail', reason],
    ]);
  });

  it('a body cannot play it', () => {
    // Sixteenths with one hand at 120 bpm are 8 a second; 7 are kept up (reference in playability.test.ts).
    const fast = phraseOf({ grouping: 'R R R', tempoBpm: 120 });
    expect(fitForm(fast, 1, 1).fits).toEqual([]);
    expect(told(fast, 1)[0]).toEqual([
      'cut the last cycle',
      'It cannot be played at 120 bpm. The right hand has to keep up more than 7 strokes a second above 105 bpm; slow down, thin out, or give strokes to another limb.',
    ]);
    expect(fitForm(fast, 1, 1).refused.map(({ openUpToBpm }) => openUpToBpm)).toEqual(
      fitForm(fast, 1, 1).refused.map(() => 105),
    );
  });

  it('lawOpenAtThatTempo: a way that is refused for the tempo alone is open at the tempo it names', () => {
    const cases = fc.tuple(arbitraryPhrase(), fc.integer({ min: 1, max: 8 }));
    fc.assert(
      fc.property(cases, ([phrase, bars]) => {
        const layer = phrase.layers.length;
        for (const { kind, openUpToBpm } of fitForm(phrase, layer, bars).refused) {
          if (openUpToBpm === undefined) continue;
          expect(openUpToBpm).toBeLessThan(phrase.tempoBpm);
          const slower = fitForm({ ...phrase, tempoBpm: openUpToBpm }, layer, bars);
          expect(slower.fits.map((fit) => fit.kind)).toContain(kind);
        }
      }),
      { numRuns: runCount(40) },
    );
  });

  it('a displacement that does already, or is taken back, is told', () => {
    const phrase = layeredPhrase({ grouping: linear(5), tempoBpm: 60 }, [{ displace: 1 }]);
    const found = fitForm(phrase, 2, 1).fits;
    const told = (kind: FitKind) => {
      const { sentence, phrase: made } = found.find((fit) => fit.kind === kind)!;
      return [sentence.split('. ')[1], made.layers.length];
    };
    expect(told('rest first')).toEqual(['It does so already.', 2]);
    expect(told('start displaced')).toEqual([undefined, 3]);
    expect(told('cut the last cycle')).toEqual(['Its displacement is taken back.', 3]);
    expect(told('add a tail')).toEqual(['Its displacement is taken back.', 3]);
  });

  it('a pickup that does not rest along is told', () => {
    const phrase = layeredPhrase({ grouping: linear(5), tempoBpm: 60 }, [
      { pickup: [{ limb: 'L', partialsBefore: 1 }] },
    ]);
    const told = (layer: number) =>
      fitForm(phrase, layer, 1).fits.filter(({ sentence }) => sentence.includes('pickup stays'));
    expect([told(1), told(2).map(({ kind }) => kind)]).toEqual([[], ['rest first']]);
    const first = expand(told(2)[0]!.phrase, 3, { bars: 1 }).slice(0, 2);
    expect(first.map(({ onset }) => onset.toFraction())).toEqual(['-1/4', '1/4']);
  });

  it('a displacement that is taken back is told where nothing is left over', () => {
    const phrase = layeredPhrase({ grouping: linear(4), tempoBpm: 60 }, [{ displace: 1 }]);
    const [fit] = fitForm(phrase, 2, 1).fits;
    expect(fit!.sentence).toContain('only the displacement is taken back');
    expect(starts(fit!.phrase, 1)).toEqual([0, 4, 8, 12]);
  });
});

describe('layers in a form', () => {
  it('go along when the cycle is written out', () => {
    const phrase = layeredPhrase({ grouping: 'R L K', tempoBpm: 60 }, [
      { where: { limb: 'R', nth: [1] }, set: { level: 'accent' } },
      { displace: 1 },
    ]);
    expect(noteGrid(fitted(phrase, 'cut the last cycle', 1), 3)).toEqual([
      'snare: R> L - R> L - R> L - R> L - R> L - R>',
      'bass drum: - - K - - K - - K - - K - - K -',
    ]);
  });
});

describe('laws', () => {
  it('lawEndsWhereItSays: a cycle, or the form, ends on the chosen beat; every fit is a phrase that can be played', () => {
    const cases = fc.tuple(arbitraryPhrase(), fc.integer({ min: 1, max: 32 }), fc.nat(31));
    fc.assert(
      fc.property(cases, ([phrase, bars, some]) => {
        const beat = 1 + (some % phrase.meter.beatsPerBar);
        const {
          fits: found,
          formPartials,
          cycles,
          remainingPartials,
        } = fitForm(phrase, phrase.layers.length, bars, beat);
        expect(cycles * phrase.cycle + remainingPartials).toBe(formPartials);
        for (const fit of found) {
          const layer = fit.phrase.layers.length;
          expect(layer - phrase.layers.length).toBeLessThanOrEqual(1);
          expect(checkPhrase(phraseFile(fit.phrase)).ok).toBe(true);
          expect(playability(fit.phrase, layer, phrase.tempoBpm).problems).toEqual([]);
          const { startBeats, subdivision } = layerShape(fit.phrase, layer);
          const start = startBeats.mul(subdivision).valueOf();
          const isForm = fit.kind === 'cut the last cycle' || fit.kind === 'add a tail';
          const { barPartials } = gridAt(fit.phrase, layer);
          if (isForm) expect([start, fit.phrase.cycle]).toEqual([0, bars * barPartials]);
          else expect(Math.abs((formPartials - start) % phrase.cycle)).toBe(0);
        }
      }),
      { numRuns: runCount(40) },
    );
  });

  it('lawSameUntilTheCut: what is written out sounds as the phrase did, up to the last whole cycle', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), fc.integer({ min: 1, max: 8 }), (phrase, bars) => {
        const file = JSON.stringify(phraseFile(phrase));
        fc.pre(!/"(beats|displace)"/.test(file));
        const layer = phrase.layers.length;
        for (const { kind, phrase: made } of fitForm(phrase, layer, bars).fits) {
          if (kind !== 'cut the last cycle' && kind !== 'add a tail') continue;
          const { cycles, formPartials } = leftOver(phrase, layer, bars);
          const isCut = kind === 'cut the last cycle';
          const until = isCut ? formPartials : cycles * phrase.cycle;
          const before = expand(phrase, layer, { cycles: cycles + 1 })
            .filter((n) => (n.cycle - 1) * phrase.cycle + n.position <= until)
            .map(word);
          const after = expand(made, made.layers.length, { cycles: 1 })
            .filter(({ position }) => position <= until)
            .map(word);
          expect(after).toEqual(before);
        }
      }),
      { numRuns: runCount(40) },
    );
  });
});
