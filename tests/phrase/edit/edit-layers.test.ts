import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addChange, removeChange, replaceChange } from '../../../src/phrase/edit/edit-changes';
import { editHead } from '../../../src/phrase/edit/edit-head';
import {
  addLayer,
  canMerge,
  duplicateLayer,
  mergeLayers,
  moveLayer,
  muteLayer,
  removeLayer,
  renameLayer,
} from '../../../src/phrase/edit/edit-layers';
import { soundOf } from '../../../src/phrase/edit/sound-of';
import { splitLayer } from '../../../src/phrase/edit/split-layer';
import type { PhraseFile } from '../../../src/phrase/model/phrase-file';
import { arbitraryPhraseFile } from '../arbitrary-phrase';
import { phraseOf } from '../phrase-of';

const FILE: PhraseFile = {
  title: 'Capstan',
  meter: '4/4',
  tempoBpm: 90,
  subdivision: 4,
  grouping: 'R L R K',
  layers: [
    { name: 'Sticking' },
    {
      name: 'Colours',
      changes: [
        { where: { limb: 'L' }, set: { level: 'ghost' } },
        { where: { positions: [1] }, set: { voice: 'floor tom' } },
        { where: { positions: [3] }, set: { voice: 'high tom' } },
      ],
    },
    {
      name: 'Bell',
      changes: [{ where: { positions: [1, 3] }, set: { voice: 'ride bell', level: 'accent' } }],
    },
  ],
};
const names = (file: PhraseFile) => file.layers.map(({ name }) => name);
const withLayer = () =>
  arbitraryPhraseFile().chain((file) =>
    fc.record({
      file: fc.constant(file),
      layer: fc.integer({ min: 1, max: file.layers.length }),
      other: fc.integer({ min: 1, max: file.layers.length }),
    }),
  );

describe('editing the head', () => {
  it('writes keys anew, takes them away, and keeps their order', () => {
    const edited = editHead(FILE, { cycle: 7, swing: '2:1', title: 'Windlass' });
    expect(Object.keys(edited)).toEqual([
      'title',
      'meter',
      'tempoBpm',
      'subdivision',
      'grouping',
      'cycle',
      'swing',
      'layers',
    ]);
    expect(editHead(edited, { cycle: undefined, swing: undefined, title: 'Capstan' })).toEqual(
      FILE,
    );
  });
});

describe('editing layers', () => {
  it('adds, renames, duplicates and removes', () => {
    const added = renameLayer(addLayer(FILE, 1), 2, 'Hush');
    expect(names(added)).toEqual(['Sticking', 'Hush', 'Colours', 'Bell']);
    expect(removeLayer(added, 2)).toEqual(FILE);
    const twice = duplicateLayer(FILE, 2);
    expect(names(twice)).toEqual(['Sticking', 'Colours', 'Colours, copy', 'Bell']);
    expect(twice.layers[2]!.changes).toEqual(FILE.layers[1]!.changes);
  });

  it('keeps the only layer', () => {
    const one = { ...FILE, layers: [{ name: 'Sticking' }] };
    expect(removeLayer(one, 1)).toBe(one);
  });

  it('merges names, and not a muted layer with one that is heard', () => {
    expect(names(mergeLayers(FILE, 2))).toEqual(['Sticking', 'Colours and Bell']);
    expect(names(mergeLayers(FILE, 1))).toEqual(['Colours', 'Bell']);
    const muted = muteLayer(FILE, 3, true);
    expect([canMerge(FILE, 2), canMerge(muted, 2), canMerge(FILE, 3)]).toEqual([
      true,
      false,
      false,
    ]);
    expect(mergeLayers(muted, 2)).toBe(muted);
  });

  it('splits by changes, and names each by what it does', () => {
    const split = splitLayer(FILE, 2);
    expect(names(split)).toEqual(['Sticking', 'Ghosts', 'Floor tom', 'High tom', 'Bell']);
    expect(split.layers.slice(1, 4).map(({ changes }) => changes)).toEqual(
      FILE.layers[1]!.changes!.map((change) => [change]),
    );
  });

  it('splits one change by what it sets', () => {
    const split = splitLayer(FILE, 3);
    expect(names(split)).toEqual(['Sticking', 'Colours', 'Ride bell', 'Accents']);
    expect(splitLayer(FILE, 1)).toBe(FILE);
  });

  it('splits in an order that sounds the same, or not at all', () => {
    const one = (where: object, set: object): PhraseFile => ({
      ...FILE,
      layers: [{ name: 'Sticking' }, { name: 'Both', changes: [{ where, set }] }],
    });
    const taps = splitLayer(one({ voice: 'snare' }, { voice: 'crash', level: 'accent' }), 2);
    expect(names(taps)).toEqual(['Sticking', 'Accents', 'Crash']);
    const tangled = one({ voice: 'snare', level: 'tap' }, { voice: 'crash', level: 'accent' });
    expect(splitLayer(tangled, 2)).toBe(tangled);
  });
});

describe('editing changes', () => {
  it('adds, replaces and removes in one layer', () => {
    const added = addChange(FILE, 1, { displace: 2 });
    expect(added.layers[0]).toEqual({ name: 'Sticking', changes: [{ displace: 2 }] });
    expect(removeChange(added, 1, 0)).toEqual(FILE);
    const replaced = replaceChange(FILE, 2, 1, { swing: '3:2' });
    expect(replaced.layers[1]!.changes).toEqual(FILE.layers[1]!.changes!.with(1, { swing: '3:2' }));
  });
});

describe('laws of layers', () => {
  it('lawThereAndBack: moving a layer there and back changes nothing', () => {
    fc.assert(
      fc.property(withLayer(), ({ file, layer, other }) => {
        expect(moveLayer(moveLayer(file, layer, other), other, layer)).toEqual(file);
      }),
    );
  });

  it('lawMuteBack: muting what is heard and back changes nothing', () => {
    fc.assert(
      fc.property(withLayer(), ({ file, layer }) => {
        const heard = muteLayer(file, layer, false);
        expect(muteLayer(muteLayer(heard, layer, true), layer, false)).toEqual(heard);
      }),
    );
  });

  it('lawMerge: two layers made one sound as both did', () => {
    fc.assert(
      fc.property(withLayer(), ({ file, layer }) => {
        const merged = mergeLayers(file, layer);
        if (merged === file) return;
        expect(merged.layers.length).toBe(file.layers.length - 1);
        expect(soundOf(phraseOf(merged))).toBe(soundOf(phraseOf(file)));
      }),
    );
  });

  it('lawSplitMerge: a layer split sounds the same, and merged again it does what it did', () => {
    let split = 0;
    fc.assert(
      fc.property(withLayer(), ({ file, layer }) => {
        const parts = splitLayer(file, layer);
        const more = parts.layers.length - file.layers.length;
        if (more > 0) split++;
        expect(soundOf(phraseOf(parts))).toBe(soundOf(phraseOf(file)));
        let merged = parts;
        for (let i = 0; i < more; i++) merged = mergeLayers(merged, layer);
        expect(soundOf(phraseOf(merged))).toBe(soundOf(phraseOf(file)));
        expect(merged.layers.length).toBe(file.layers.length);
        expect(merged.layers.toSpliced(layer - 1, 1)).toEqual(file.layers.toSpliced(layer - 1, 1));
        if ((file.layers[layer - 1]!.changes ?? []).length > 1)
          expect(merged.layers[layer - 1]!.changes).toEqual(file.layers[layer - 1]!.changes);
      }),
    );
    expect(split).toBeGreaterThan(10);
  });

  it('lawOthersStay: what is done to one layer leaves the others as they are', () => {
    fc.assert(
      fc.property(withLayer(), ({ file, layer }) => {
        const others = file.layers.toSpliced(layer - 1, 1);
        const edits = [
          renameLayer(file, layer, 'Else'),
          muteLayer(file, layer, true),
          addChange(file, layer, { displace: 1 }),
        ];
        for (const edited of edits) expect(edited.layers.toSpliced(layer - 1, 1)).toEqual(others);
        for (const edited of edits)
          expect({ ...edited, layers: [] }).toEqual({ ...file, layers: [] });
      }),
    );
  });
});
