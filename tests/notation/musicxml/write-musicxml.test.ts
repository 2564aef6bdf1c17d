import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { writeMusicXml } from '../../../src/notation/musicxml/write-musicxml';
import { layerScore } from '../../../src/notation/score/layer-score';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { arbitraryPhrase } from '../../phrase/arbitrary-phrase';
import { libraryPhrases } from '../../phrase/library-phrases';
import { phraseOf } from '../../phrase/phrase-of';
import { parsePhrase } from '../../../src/phrase/file/parse-phrase';
import { longRunCount } from '../../run-count';
import { structureFaults } from './structure-faults';
import { hasSchema, schemaFaults } from './validate-musicxml';

const libraryPhrase = (text: string): Phrase => {
  const phrase = parsePhrase(text);
  if (!phrase.ok) throw new Error(phrase.errors[0]!.message);
  return phrase.value;
};

const faultsOf = (xml: string) => [...schemaFaults(xml), ...structureFaults(xml)];

describe('MusicXML 4.0', () => {
  if (!hasSchema)
    process.stdout.write(
      'No ../shared/schemas/musicxml-4.0 beside the checkout: structure alone is checked.',
    );

  it.each(libraryPhrases().map(({ name, text }) => [name, text] as const))(
    'each layer of %s, and all of them, are valid and whole',
    (_, text) => {
      const phrase = libraryPhrase(text);
      const scores = phrase.layers.map((__, i) => layerScore(phrase, i + 1));
      for (const score of scores) expect(faultsOf(writeMusicXml([score]))).toEqual([]);
      expect(faultsOf(writeMusicXml(scores))).toEqual([]);
    },
  );

  it('lawValidAndWhole: whatever the phrase', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), fc.integer({ min: 1, max: 3 }), (phrase, bars) => {
        const scores = phrase.layers.map((_, i) => layerScore(phrase, i + 1, bars));
        expect(faultsOf(writeMusicXml([scores.at(-1)!]))).toEqual([]);
        expect(faultsOf(writeMusicXml(scores))).toEqual([]);
      }),
      { numRuns: longRunCount(300) },
    );
  });

  // What a checker that finds nothing would let pass.
  it.each([
    ['a bar that is not full', (xml: string) => xml.replace('<duration>1260<', '<duration>1261<')],
    [
      'a bracket that goes on',
      (xml: string) => xml.replace(/<bracket type="stop"/, '<bracket type="start"'),
    ],
    [
      'an instrument that is not there',
      (xml: string) => xml.replace('<instrument id="D-snare"', '<instrument id="D-gong"'),
    ],
    ['tempo 0', (xml: string) => xml.replace(/sound tempo="\d+"/, 'sound tempo="0"')],
    ['no way back', (xml: string) => xml.replace(/<backup>.*?<\/backup>/, '')],
  ])('%s is found by our own checks', (_, spoil) => {
    const xml = writeMusicXml([layerScore(phraseOf({ grouping: 'R L R L K' }), 1)]);
    expect(structureFaults(xml)).toEqual([]);
    expect(structureFaults(spoil(xml)).length).toBeGreaterThan(0);
  });

  it('the schema, where it is there, refuses what it should', () => {
    if (!hasSchema) return;
    const xml = writeMusicXml([layerScore(phraseOf({ grouping: 'R L R L K' }), 1)]);
    expect(schemaFaults(xml)).toEqual([]);
    expect(schemaFaults(xml.replace('<midi-unpitched>39<', '<midi-unpitched>0<')).length).toBe(1);
  });
});
