import { describe, expect, it } from 'vitest';
import { readMusicXml } from '../../../src/notation/musicxml/read-musicxml';
import { writeMusicXml } from '../../../src/notation/musicxml/write-musicxml';
import { layerScore } from '../../../src/notation/score/layer-score';
import { parsePhrase } from '../../../src/phrase/file/parse-phrase';
import { targetKey } from '../../../src/phrase/layers/target-key';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { libraryPhrases } from '../../phrase/library-phrases';

const libraryPhrase = (text: string): Phrase => {
  const phrase = parsePhrase(text);
  if (!phrase.ok) throw new Error(phrase.errors[0]!.message);
  return phrase.value;
};

const readAgain = (phrase: Phrase, layer: number) => {
  const read = readMusicXml(writeMusicXml([layerScore(phrase, layer)]));
  if (!read.ok) throw new Error(read.errors[0]!.message);
  return read.value;
};

describe('MusicXML read again', () => {
  it.each(libraryPhrases().map(({ name, text }) => [name, text] as const))(
    'each layer of %s is the same target',
    (_, text) => {
      const phrase = libraryPhrase(text);
      for (let layer = 1; layer <= phrase.layers.length; layer++) {
        const { phrase: again, unread } = readAgain(phrase, layer);
        expect(unread).toEqual([]);
        expect(again.title).toBe(phrase.title);
        expect(again.tempoBpm).toBe(phrase.tempoBpm);
        expect([layer, targetKey(again, again.layers.length)]).toEqual([
          layer,
          targetKey(phrase, layer),
        ]);
      }
    },
  );
});
