import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readMusicXml } from '../../../src/notation/musicxml/read-musicxml';
import { writeMusicXml } from '../../../src/notation/musicxml/write-musicxml';
import { layerScore } from '../../../src/notation/score/layer-score';
import { parsePhrase } from '../../../src/phrase/file/parse-phrase';
import { targetKey } from '../../../src/phrase/layers/target-key';
import type { Note } from '../../../src/phrase/model/note';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { samePattern } from '../../../src/phrase/decompose/same-pattern';
import { targetPattern } from '../../../src/phrase/decompose/target-pattern';
import { expand } from '../../../src/phrase/layers/expand';
import { arbitraryPhrase } from '../../phrase/arbitrary-phrase';
import { libraryPhrases } from '../../phrase/library-phrases';
import { layeredPhrase } from '../../phrase/phrase-of';
import { longRunCount } from '../../run-count';

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

  it('of all layers in one file the last is read, pickup, swing and tempo with it', () => {
    const phrase = layeredPhrase(
      { grouping: 'R L K', swing: '2:1', tempoBpm: 77 },
      [{ where: { limb: 'R' }, set: { voice: 'ride' } }],
      [{ pickup: [{ partialsBefore: 2, limb: 'L' }] }],
    );
    const read = readMusicXml(writeMusicXml([1, 2, 3].map((layer) => layerScore(phrase, layer))));
    if (!read.ok) throw new Error(read.errors[0]!.message);
    const { phrase: again, unread } = read.value;
    expect(targetKey(again, again.layers.length)).toBe(targetKey(phrase, 3));
    expect(again.tempoBpm).toBe(77);
    expect(unread.map(({ sentence }) => sentence)).toEqual([
      'Of 3 layers the last is read, "Layer 3".',
    ]);
  });

  it('of a phrase too long for one cycle, which ends before all has come round, what is written', () => {
    const phrase = layeredPhrase(
      { meter: '7/8', subdivision: 8, grouping: 'R L R R L L R L R L L R K' },
      [{ where: { every: { partials: 63, at: [1] } }, set: { level: 'accent' } }],
    );
    const score = layerScore(phrase, 2);
    const read = readMusicXml(writeMusicXml([score]));
    if (!read.ok) throw new Error(read.errors[0]!.message);
    expect(read.value.phrase.cycle).toBe(phrase.cycle);
    expect(read.value.unread.map(({ sentence }) => sentence)).toEqual([
      'The score ends before all of the phrase has come round; what is written comes round instead.',
    ]);
    const notes = (one: Phrase) =>
      expand(one, one.layers.length, { bars: score.bars.length }).map(sound).sort();
    expect(notes(read.value.phrase)).toEqual(notes(phrase));
  });

  const sound = ({ onset, graceStep, limb, voice, level }: Note) =>
    `${onset.toFraction()} ${graceStep} ${limb} ${voice} ${level}`;

  it('lawNothingLost: where nothing is told, the same notes sound, as long as they are played', () => {
    let compared = 0;
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        const layer = phrase.layers.length;
        const score = layerScore(phrase, layer);
        const read = readMusicXml(writeMusicXml([score]));
        if (!read.ok) {
          const { code } = read.errors[0]!;
          expect(code).toMatch(/^PATTERN_(EMPTY|BEYOND_LAYERS)$/);
          return;
        }
        const { phrase: again, pattern, unread, stickingShare } = read.value;
        expect(stickingShare).toBe(1);
        if (unread.length > 0) {
          expect(score.isRepeated).toBe(false);
          return;
        }
        compared++;
        const span = { bars: 2 * score.bars.length };
        const heard = (one: Phrase) => expand(one, one.layers.length, span).map(sound).sort();
        expect(heard(again)).toEqual(heard(phrase));
        const written = targetPattern(phrase, layer);
        const isStraight = written.ok && (written.value.swing ?? '1:1') === '1:1';
        if (written.ok && score.isRepeated && isStraight)
          expect(samePattern(pattern, written.value)).toBe(true);
      }),
      { numRuns: longRunCount(300) },
    );
    expect(compared).toBeGreaterThan(0);
  });
});
