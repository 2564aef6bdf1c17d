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
import * as split from '../../../src/phrase/edit/split-layer';
import { DraftCheck } from '../../../src/phrase/check/draft-check';
import { soundsSame } from '../../../src/phrase/layers/same-sound';
import type { PhraseDraft } from '../../../src/phrase/model/phrase-draft';
import { runCount } from '../../run-count';
import { arbitraryPhraseFile } from '../arbitrary-phrase';
import { draftFrom, stackFrom } from '../draft-from';

const DRAFT = draftFrom({
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
});
const splitLayer = (draft: PhraseDraft, layer: number) =>
  split.splitLayer(new DraftCheck(draft), layer);
const names = (draft: PhraseDraft) => draft.layers.map(({ name }) => name);
const withLayer = () =>
  arbitraryPhraseFile()
    .map(draftFrom)
    .chain((draft) =>
      fc.record({
        draft: fc.constant(draft),
        layer: fc.integer({ min: 1, max: draft.layers.length }),
        other: fc.integer({ min: 1, max: draft.layers.length }),
      }),
    );

describe('editing the head', () => {
  it('writes keys anew, takes them away, and keeps their order', () => {
    const edited = editHead(DRAFT, { cycle: 7, swing: '2:1', title: 'Windlass' });
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
      DRAFT,
    );
  });
});

describe('editing layers', () => {
  it('adds, renames, duplicates and removes', () => {
    const added = renameLayer(addLayer(DRAFT, 1), 2, 'Hush');
    expect(names(added)).toEqual(['Sticking', 'Hush', 'Colours', 'Bell']);
    expect(removeLayer(added, 2)).toEqual(DRAFT);
    const twice = duplicateLayer(DRAFT, 2);
    expect(names(twice)).toEqual(['Sticking', 'Colours', 'Colours, copy', 'Bell']);
    expect(twice.layers[2]!.changes).toEqual(DRAFT.layers[1]!.changes);
  });

  it('keeps the only layer', () => {
    const one = { ...DRAFT, layers: [{ name: 'Sticking', changes: [] }] };
    expect(removeLayer(one, 1)).toBe(one);
  });

  it('merges names, and not a muted layer with one that is heard', () => {
    expect(names(mergeLayers(DRAFT, 2))).toEqual(['Sticking', 'Colours and Bell']);
    expect(names(mergeLayers(DRAFT, 1))).toEqual(['Colours', 'Bell']);
    const muted = muteLayer(DRAFT, 3, true);
    expect([canMerge(DRAFT, 2), canMerge(muted, 2), canMerge(DRAFT, 3)]).toEqual([
      true,
      false,
      false,
    ]);
    expect(mergeLayers(muted, 2)).toBe(muted);
  });

  it('splits by changes, and names each by what it does', () => {
    const split = splitLayer(DRAFT, 2);
    expect(names(split)).toEqual(['Sticking', 'Ghosts', 'Floor tom', 'High tom', 'Bell']);
    expect(split.layers.slice(1, 4).map(({ changes }) => changes)).toEqual(
      DRAFT.layers[1]!.changes.map((change) => [change]),
    );
  });

  it('splits one change by what it sets', () => {
    const split = splitLayer(DRAFT, 3);
    expect(names(split)).toEqual(['Sticking', 'Colours', 'Ride bell', 'Accents']);
    expect(splitLayer(DRAFT, 1)).toBe(DRAFT);
  });

  it('splits in an order that sounds the same, or not at all', () => {
    const one = (where: object, set: object): PhraseDraft => ({
      ...DRAFT,
      layers: [
        { name: 'Sticking', changes: [] },
        { name: 'Both', changes: [{ kind: 'set', where, set }] },
      ],
    });
    const taps = splitLayer(one({ voice: 'snare' }, { voice: 'crash', level: 'accent' }), 2);
    expect(names(taps)).toEqual(['Sticking', 'Accents', 'Crash']);
    const tangled = one({ voice: 'snare', level: 'tap' }, { voice: 'crash', level: 'accent' });
    expect(splitLayer(tangled, 2)).toBe(tangled);
  });
});

describe('editing changes', () => {
  it('adds, replaces and removes in one layer', () => {
    const added = addChange(DRAFT, 1, { kind: 'displace', displace: 2 });
    expect(added.layers[0]).toEqual({
      name: 'Sticking',
      changes: [{ kind: 'displace', displace: 2 }],
    });
    expect(removeChange(added, 1, 0)).toEqual(DRAFT);
    const replaced = replaceChange(DRAFT, 2, 1, { kind: 'swing', swing: '3:2' });
    expect(replaced.layers[1]!.changes).toEqual(
      DRAFT.layers[1]!.changes.with(1, { kind: 'swing', swing: '3:2' }),
    );
  });
});

describe('laws of layers', () => {
  it('lawThereAndBack: moving a layer there and back changes nothing', () => {
    fc.assert(
      fc.property(withLayer(), ({ draft, layer, other }) => {
        expect(moveLayer(moveLayer(draft, layer, other), other, layer)).toEqual(draft);
      }),
    );
  });

  it('lawMuteBack: muting what is heard and back changes nothing', () => {
    fc.assert(
      fc.property(withLayer(), ({ draft, layer }) => {
        const heard = muteLayer(draft, layer, false);
        expect(muteLayer(muteLayer(heard, layer, true), layer, false)).toEqual(heard);
      }),
    );
  });

  it('lawMerge: two layers made one sound as both did', () => {
    fc.assert(
      fc.property(withLayer(), ({ draft, layer }) => {
        const merged = mergeLayers(draft, layer);
        if (merged === draft) return;
        expect(merged.layers.length).toBe(draft.layers.length - 1);
        expect(soundsSame(stackFrom(merged), stackFrom(draft))).toBe(true);
      }),
    );
  });

  it('lawSplitMerge: a layer split sounds the same, and merged again it does what it did', () => {
    let split = 0;
    fc.assert(
      fc.property(withLayer(), ({ draft, layer }) => {
        const parts = splitLayer(draft, layer);
        const more = parts.layers.length - draft.layers.length;
        if (more > 0) split++;
        expect(soundsSame(stackFrom(parts), stackFrom(draft))).toBe(true);
        let merged = parts;
        for (let i = 0; i < more; i++) merged = mergeLayers(merged, layer);
        expect(soundsSame(stackFrom(merged), stackFrom(draft))).toBe(true);
        expect(merged.layers.length).toBe(draft.layers.length);
        expect(merged.layers.toSpliced(layer - 1, 1)).toEqual(draft.layers.toSpliced(layer - 1, 1));
        if (draft.layers[layer - 1]!.changes.length > 1)
          expect(merged.layers[layer - 1]!.changes).toEqual(draft.layers[layer - 1]!.changes);
      }),
    );
    expect(split).toBeGreaterThan(runCount(100) / 10);
  });

  it('lawOthersStay: what is done to one layer leaves the others as they are', () => {
    fc.assert(
      fc.property(withLayer(), ({ draft, layer }) => {
        const others = draft.layers.toSpliced(layer - 1, 1);
        const edits = [
          renameLayer(draft, layer, 'Else'),
          muteLayer(draft, layer, true),
          addChange(draft, layer, { kind: 'displace', displace: 1 }),
        ];
        for (const edited of edits) expect(edited.layers.toSpliced(layer - 1, 1)).toEqual(others);
        for (const edited of edits)
          expect({ ...edited, layers: [] }).toEqual({ ...draft, layers: [] });
      }),
    );
  });
});
