import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { unwrittenParts } from '../../../src/notation/score/unwritten-parts';
import { readMusicXml } from '../../../src/notation/musicxml/read-musicxml';
import { writeMusicXml } from '../../../src/notation/musicxml/write-musicxml';
import { layerScore } from '../../../src/notation/score/layer-score';
import { checkDraft } from '../../../src/phrase/check/draft-check';
import { checkPhrase, parsePhrase } from '../../../src/phrase/file/parse-phrase';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { draftOf } from '../../../src/phrase/model/phrase-draft';
import { beats } from '../../../src/time/beats';
import { arbitraryPhrase } from '../../phrase/arbitrary-phrase';
import { libraryPhrases } from '../../phrase/library-phrases';
import { runCount } from '../../run-count';

function told(grouping: string, changes: readonly object[], more: object = {}) {
  const { first = [], ...head } = more as { first?: readonly object[] };
  const draft = { title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping, ...head };
  const layers = [
    { name: 'Sticking', changes: first },
    { name: 'More', changes },
  ];
  const phrase = checkPhrase({ ...draft, layers });
  if (!phrase.ok) throw new Error(phrase.errors[0]!.message);
  return unwrittenParts(phrase.value, [2]);
}

describe('what no file of notes holds is told', () => {
  const tripled = { subdivision: 3, swing: '2:1' };
  it.each([
    ['a swing of triplets', 'R L K', [], tripled, ['Swing 2:1 moves no note and is left out.']],
    ['a swing of sixteenths', 'R L K', [], { subdivision: 2, swing: '2:1' }, []],
    [
      'grace notes of a stroke that is silent',
      'lR L K',
      [],
      { first: [{ where: { positions: [1] }, set: { silent: true } }] },
      ['The grace notes of position 1 are silent and left out.'],
    ],
    ['grace notes that sound', 'lR L K', [], {}, []],
    [
      'an accent cycle on what is accented already',
      'R L K',
      [{ where: {}, set: { level: 'accent' } }, { accentEvery: 3 }],
      {},
      [
        'Layer 2, “More”: “accent every 3 partials from partial 1 on” changes no note that is written and is left out.',
      ],
    ],
    ['an accent cycle that is heard', 'R L K', [{ accentEvery: 4 }], {}, []],
  ])('%s', (_, grouping, changes, more, sentences) => {
    expect(told(grouping, changes, more)).toEqual(sentences);
  });

  it('a muted layer', () => {
    const draft = { title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K' };
    const muted = { name: 'Later', muted: true, changes: [{ accentEvery: 4 }] };
    const phrase = checkPhrase({ ...draft, layers: [{ name: 'Sticking' }, muted] });
    if (!phrase.ok) throw new Error(phrase.errors[0]!.message);
    expect(unwrittenParts(phrase.value, [2])).toEqual(['Layer 2, “Later”, is muted and left out.']);
    expect(unwrittenParts(phrase.value, [1])).toEqual([]);
  });

  it('nothing of the library', () => {
    const sentences = libraryPhrases().flatMap(({ text }) => {
      const { value: phrase } = parsePhrase(text) as { value: Phrase };
      return unwrittenParts(phrase, [phrase.layers.length]);
    });
    expect(sentences).toEqual([]);
  });

  it('lawCarriedOrTold: a swing comes back, or is told', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        const layer = phrase.layers.length;
        const score = layerScore(phrase, layer);
        if (score.swing === undefined) {
          if (layerScore(phrase, 1).swing !== undefined) return;
          const sentences = unwrittenParts(phrase, [layer]);
          const isTold = sentences.some((one) => one.startsWith('Swing'));
          expect(isTold).toBe(phrase.swing !== undefined);
          return;
        }
        const back = readMusicXml(writeMusicXml([score]));
        if (back.ok) expect((back.value.phrase.swing ?? beats(1)).equals(score.swing)).toBe(true);
      }),
      { numRuns: runCount(25, 12) },
    );
  });

  it('lawIdleIsTold: accents made accents again', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        const again = { where: { level: 'accent' }, set: { level: 'accent' } } as const;
        const draft = draftOf(phrase);
        const idle = checkDraft({
          ...draft,
          layers: [...draft.layers, { name: 'Again', changes: [{ kind: 'set', ...again }] }],
        });
        if (!idle.ok) return;
        const number = idle.value.layers.length;
        expect(unwrittenParts(idle.value, [number]).at(-1)).toContain(`Layer ${number}, “Again”`);
      }),
      { numRuns: runCount(25, 12) },
    );
  });
});
