import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layerStack } from '../../../src/phrase/layers/layer-stack';
import { checkPhrase, parsePhrase } from '../../../src/phrase/file/parse-phrase';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { playability } from '../../../src/phrase/playability/playability';
import { timeline } from '../../../src/phrase/layers/timeline';
import { Draws } from '../../../src/phrase/vary/draws';
import { offer } from '../../../src/phrase/vary/offer';
import { proposeVariations, type Constraints } from '../../../src/phrase/vary/propose';
import { Subject } from '../../../src/phrase/vary/subject';
import { TwistRange } from '../../../src/phrase/vary/twist-range';
import { vary } from '../../../src/phrase/vary/vary';
import { writePhrase } from '../../../src/phrase/file/write-phrase';
import { chance } from '../../../src/time/chance';
import { libraryPhrases } from '../library-phrases';
import { phraseFile, phraseOf } from '../phrase-of';

const library = libraryPhrases().map(({ name, text }) => {
  const parsed = parsePhrase(text);
  if (!parsed.ok) throw new Error(name);
  return { name, phrase: parsed.value };
});
const quaySteps = library.find(({ name }) => name === 'quay-steps')!.phrase;
const proposed = (phrase: Phrase, count: number, constraints: Constraints = {}, seed = 4) =>
  proposeVariations(phrase, count, constraints, chance(seed).share);

describe('proposed variations', () => {
  it.each(library)(
    '$name: different, sound, playable at every layer, and each says what changed',
    ({ phrase }) => {
      const found = proposed(phrase, 12);
      expect(found).toHaveLength(12);
      expect(new Set(found.map((each) => writePhrase(each.phrase))).size).toBe(12);
      for (const { phrase: made, sentence, distance, difficulty } of found) {
        expect(checkPhrase(phraseFile(made)).ok).toBe(true);
        made.layers.forEach((_, i) => {
          expect(playability(made, i + 1, phrase.tempoBpm).problems).toEqual([]);
        });
        expect(sentence).toMatch(/^[A-Z].*\.$/);
        expect(distance).toBeGreaterThan(0);
        expect(difficulty).toBeGreaterThan(0);
      }
    },
  );

  it('lawRepeatable: the same seed proposes the same, another seed something else', () => {
    const texts = (seed: number) =>
      proposed(quaySteps, 8, {}, seed).map((v) => writePhrase(v.phrase));
    expect(texts(11)).toEqual(texts(11));
    expect(texts(11)).not.toEqual(texts(12));
  });

  it('proposes the same for a seed from one version to the next', () => {
    const lines = proposed(quaySteps, 6).map(({ distance, difficulty, phrase, sentence }) =>
      [distance.toFixed(2), difficulty.toFixed(1), phrase.cycle, sentence].join(' | '),
    );
    expect(lines).toEqual([
      '7.00 | 26.8 | 20 | The strokes of the left hand are on the high tom.',
      '5.25 | 22.0 | 19 | Strokes stay on 15 of 20 places, spread evenly. The cycle has 19 partials in place of 20.',
      '2.50 | 27.4 | 22 | The cycle has 22 partials in place of 20.',
      '1.00 | 27.2 | 20 | Strokes stay on 7 of 8 places of the left hand, spread evenly.',
      '4.00 | 26.8 | 20 | What was on the bass drum is on the hi-hat pedal.',
      '6.00 | 25.3 | 20 | Strokes stay on 14 of 20 places, spread evenly.',
    ]);
  });

  it('lawWithinConstraints', () => {
    const constraints: Constraints = {
      limbs: ['R', 'L', 'K'],
      voices: ['snare', 'floor tom', 'high tom', 'bass drum'],
      highestDifficulty: 30,
      distance: [1, 6],
      bpm: 92,
    };
    const found = proposed(quaySteps, 10, constraints);
    expect(found.length).toBeGreaterThan(4);
    for (const { phrase, distance, difficulty } of found) {
      const layer = phrase.layers.length;
      const { notes } = timeline(phrase, layer);
      expect(constraints.limbs).toEqual(expect.arrayContaining(notes.map(({ limb }) => limb)));
      expect(constraints.voices).toEqual(expect.arrayContaining(notes.map(({ voice }) => voice)));
      expect(distance).toBeGreaterThanOrEqual(1);
      expect(distance).toBeLessThanOrEqual(6);
      expect(difficulty).toBeLessThanOrEqual(30);
      expect(playability(phrase, layer, 92).problems).toEqual([]);
    }
  });

  it('looks through what chance does not come upon', () => {
    const bollards = library.find(({ name }) => name === 'three-bollards')!.phrase;
    const found = proposed(bollards, 1000);
    expect(new Set(found.map((each) => writePhrase(each.phrase))).size).toBe(1000);
  });

  it('lawNoMore: where it finds fewer than asked, every seed finds the same', () => {
    const phrase = phraseOf({ grouping: 'R L' });
    const constraints: Constraints = { limbs: ['R', 'L'], voices: ['snare', 'floor tom'] };
    const texts = (seed: number) =>
      proposed(phrase, 500, constraints, seed).map((each) => writePhrase(each.phrase));
    const first = texts(1);
    expect(first.length).toBeGreaterThan(50);
    expect(first.length).toBeLessThan(500);
    fc.assert(
      fc.property(fc.nat(), (seed) => {
        expect(new Set(texts(seed))).toEqual(new Set(first));
      }),
      { numRuns: 5 },
    );
  });

  it('draws nothing that it would not look through', () => {
    const draws = new Draws(chance(8).share);
    const range = new TwistRange(['R', 'K'], ['snare', 'crash', 'bass drum']);
    for (const { phrase } of library) {
      const subject = new Subject({ stack: layerStack(phrase), sentence: '' });
      const all = new Set(range.all(subject).map((twist) => JSON.stringify(twist)));
      for (let drawn = 0; drawn < 500; drawn++)
        expect(all).toContain(JSON.stringify(range.draw(subject, draws)));
    }
  });

  it.each([
    [14, 8, 2],
    [15, 7, 1],
  ])('tries less often where laying on takes long: %i layers', (layers, cycles, tries) => {
    const changes = Array.from({ length: 8 }, () => ({
      where: {},
      set: { level: 'tap' as const },
    }));
    const phrase = phraseOf({
      grouping: 'R',
      cycle: 512,
      layers: Array.from({ length: layers }, (_, i) => ({ name: `Layer ${i}`, changes })),
    });
    expect(layerStack(phrase).cyclesInReach).toBe(cycles);
    let numbers = 0;
    // Nothing is far enough from the original, so that every try is made: three numbers each, which twist, how, and whether twice.
    const share = () => (numbers++, 0.4);
    proposeVariations(phrase, 2, { distance: [1e9, 1e9] }, share);
    const all = numbers;
    numbers = 0;
    proposeVariations(phrase, 4, { distance: [1e9, 1e9] }, share);
    expect([all, numbers]).toEqual([2 * tries * 3, 4 * tries * 3]);
  });

  it('gives up where nothing can be found', () => {
    expect(proposed(quaySteps, 5, { voices: ['triangle'] })).toEqual([]);
  });
});

describe('offer', () => {
  it('keeps back what cannot be played and what sounds the same', () => {
    const phrase = phraseOf({ grouping: 'R R L L', tempoBpm: 120 });
    expect(offer(phrase, vary(phrase, { kind: 'double strokes' }))).toBeUndefined();
    expect(offer(phrase, vary(phrase, { kind: 'double strokes' }), 60)).toBeDefined();
    expect(offer(phrase, vary(phrase, { kind: 'rotate', by: 4 }))).toBeUndefined();
    expect(offer(phrase, vary(phrase, { kind: 'rotate', by: 1 }))?.distance).toBeGreaterThan(0);
  });
});
