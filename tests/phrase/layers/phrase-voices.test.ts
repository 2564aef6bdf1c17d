import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { checkPhrase, parsePhrase } from '../../../src/phrase/file/parse-phrase';
import { expand } from '../../../src/phrase/layers/expand';
import { phraseVoices } from '../../../src/phrase/layers/phrase-voices';
import { libraryPhrases } from '../library-phrases';

const phrases = libraryPhrases().map(({ name, text }) => {
  const parsed = parsePhrase(text);
  if (!parsed.ok) throw new Error(`${name} is no phrase`);
  return { name, phrase: parsed.value };
});

it('are those that are written, layer by layer', () => {
  const { phrase } = phrases.find(({ name }) => name === 'quay-steps')!;
  expect(phraseVoices(phrase)).toEqual(['high tom', 'snare', 'floor tom', 'bass drum']);
});

it('are those too that a selector names only after the cycle has come round against the bar', () => {
  const parsed = checkPhrase({
    title: 'Late bell',
    meter: '4/4',
    tempoBpm: 90,
    subdivision: 4,
    grouping: 'R L R L',
    layers: [
      { name: 'Sticking' },
      {
        name: 'Bell',
        changes: [{ where: { every: { partials: 64, at: [49] } }, set: { voice: 'ride bell' } }],
      },
    ],
  });
  if (!parsed.ok) throw new Error(parsed.errors[0]!.message);
  expect(phraseVoices(parsed.value)).toEqual(['ride bell', 'snare']);
});

it.each(phrases)(
  'of $name hold whatever sounds at any of its layers, however long',
  ({ phrase }) => {
    const voices = phraseVoices(phrase);
    fc.assert(
      fc.property(fc.integer({ min: 1, max: phrase.layers.length }), (layer) => {
        for (const { voice } of expand(phrase, layer, { bars: 24 }))
          expect(voices).toContain(voice);
      }),
      { numRuns: phrase.layers.length },
    );
  },
);
