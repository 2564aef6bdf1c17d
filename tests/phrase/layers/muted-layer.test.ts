import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expand } from '../../../src/phrase/layers/expand';
import { gridAt } from '../../../src/phrase/model/grid';
import { checkPhrase, parsePhrase } from '../../../src/phrase/file/parse-phrase';
import type { PhraseFile } from '../../../src/phrase/model/phrase-file';
import { writePhrase } from '../../../src/phrase/file/write-phrase';
import { vary } from '../../../src/phrase/vary/vary';
import { arbitraryPhraseFile } from '../arbitrary-phrase';
import { noteGrid } from '../note-grid';
import { phraseFile, phraseOf } from '../phrase-of';

const FILE: PhraseFile = {
  title: 'Sluice',
  meter: '4/4',
  tempoBpm: 90,
  subdivision: 4,
  grouping: 'R L R K',
  layers: [
    { name: 'Sticking' },
    {
      name: 'Toms',
      muted: true,
      changes: [{ where: { limb: 'R' }, set: { voice: 'floor tom' } }, { displace: 1 }],
    },
    { name: 'Accents', changes: [{ where: { positions: [1] }, set: { level: 'accent' } }] },
  ],
};

describe('a muted layer', () => {
  it('lays nothing on, and keeps its changes in the file', () => {
    const phrase = phraseOf(FILE);
    expect(noteGrid(phrase, 3)).toEqual(['snare: R> L R -', 'bass drum: - - - K']);
    expect(gridAt(phrase, 3).displace).toBe(0);
    expect(expand(phrase, 3, { cycles: 1 })[0]!.layers).toEqual([1, 3]);
    expect(phraseFile(phrase)).toEqual(FILE);
    expect(parsePhrase(writePhrase(phrase))).toEqual({ ok: true, value: phrase });
  });

  it('may name places that the phrase has not, until it is laid on', () => {
    const changes = [{ where: { positions: [9] }, set: { level: 'ghost' as const } }];
    const layers = [...FILE.layers, { name: 'Far', muted: true, changes }];
    expect(checkPhrase({ ...FILE, layers }).ok).toBe(true);
    const heard = checkPhrase({ ...FILE, layers: layers.map((l) => ({ ...l, muted: false })) });
    expect(!heard.ok && heard.errors[0]).toMatchObject({
      code: 'POSITION_BEYOND_CYCLE',
      layer: 4,
    });
  });

  it('is missed by what a later layer selects, which is told there', () => {
    const after = { where: { voice: 'floor tom' }, set: { level: 'accent' } };
    const checked = checkPhrase({
      ...FILE,
      layers: [...FILE.layers, { name: 'Loud', changes: [after] }],
    });
    expect(!checked.ok && checked.errors.map(({ code, layer }) => [code, layer])).toEqual([
      ['SELECTS_NOTHING', 4],
    ]);
  });

  it('stays muted in a variation', () => {
    const rotated = vary(phraseOf(FILE), { kind: 'rotate', by: 1 })!.phrase;
    expect(phraseFile(rotated).layers[1]).toMatchObject({ name: 'Toms', muted: true });
    expect(noteGrid(rotated, 3)[0]).toBe('snare: L R - R>');
  });

  it('lawAllMuted: with every layer muted the last sounds like the bare grouping', () => {
    fc.assert(
      fc.property(arbitraryPhraseFile(), (file) => {
        const muted = { ...file, layers: file.layers.map((layer) => ({ ...layer, muted: true })) };
        const bare = { ...file, layers: [{ name: 'Sticking' }] };
        const [all, root] = [phraseOf(muted), phraseOf(bare)];
        expect(expand(all, all.layers.length, { cycles: 3 })).toEqual(
          expand(root, 1, { cycles: 3 }),
        );
      }),
    );
  });
});
