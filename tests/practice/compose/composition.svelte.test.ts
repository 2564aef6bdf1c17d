import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { addChange, removeChange, replaceChange } from '../../../src/phrase/edit/edit-changes';
import { editHead } from '../../../src/phrase/edit/edit-head';
import {
  addLayer,
  duplicateLayer,
  mergeLayers,
  moveLayer,
  muteLayer,
  removeLayer,
  renameLayer,
} from '../../../src/phrase/edit/edit-layers';
import { splitLayer } from '../../../src/phrase/edit/split-layer';
import type { DraftCheck } from '../../../src/phrase/check/draft-check';
import { writeDraft } from '../../../src/phrase/file/write-phrase';
import type { PhraseDraft } from '../../../src/phrase/model/phrase-draft';
import { Composition } from '../../../src/practice/compose/composition.svelte';
import {
  STORE_MESSAGES,
  storeProblem,
  type StoreProblemCode,
} from '../../../src/store/store-problem';
import { bad, good } from '../../../src/time/result';
import { draftFrom } from '../../phrase/draft-from';
import { UnsavedEdits } from '../../../src/practice/compose/unsaved-edits';
import { SettingsStore } from '../../../src/store/settings-store';
import { NO_OTHER_TABS } from './no-other-tabs';

const DRAFT = draftFrom({
  title: 'Tide table',
  meter: '4/4',
  tempoBpm: 90,
  subdivision: 4,
  grouping: 'R L R L K',
  layers: [{ name: 'Sticking' }],
});

beforeEach(() => vi.useFakeTimers());
afterEach(() => vi.useRealTimers());

function compose({
  kept = true,
  problem,
  draft = DRAFT,
}: { kept?: boolean; problem?: StoreProblemCode; draft?: PhraseDraft } = {}) {
  const saved: PhraseDraft[] = [];
  const unsaved = new UnsavedEdits(new SettingsStore(null), NO_OTHER_TABS);
  const library = {
    async save(_id: string, check: DraftCheck) {
      saved.push(check.draft);
      return problem === undefined ? good(undefined) : bad(storeProblem(problem));
    },
    storedText: () => undefined,
  };
  const keepBeside = (title: string) => ({ id: 'own-2', title });
  const composition = new Composition('own-1', draft, kept, { library, unsaved, keepBeside });
  return { composition, saved, unsaved };
}

const title = (text: string) => (draft: PhraseDraft) => editHead(draft, { title: text });

/** Edits of every kind, right and wrong ones. */
const edits = fc.array(
  fc.oneof(
    fc.integer({ min: 1, max: 4 }).map((n) => (draft: PhraseDraft) => removeLayer(draft, n)),
    fc.integer({ min: 1, max: 4 }).map((n) => (draft: PhraseDraft) => moveLayer(draft, n, 1)),
    fc.integer({ min: 1, max: 4 }).map((n) => (draft: PhraseDraft) => duplicateLayer(draft, n)),
    fc.integer({ min: 1, max: 4 }).map((n) => (draft: PhraseDraft) => mergeLayers(draft, n)),
    fc.integer({ min: 1, max: 4 }).map((n) => (draft: PhraseDraft) => muteLayer(draft, n, true)),
    fc
      .integer({ min: 1, max: 4 })
      .map((n) => (_: PhraseDraft, work: DraftCheck) => splitLayer(work, n)),
    fc.constant((draft: PhraseDraft) => addLayer(draft)),
    fc.constant((draft: PhraseDraft) =>
      addChange(draft, 1, { kind: 'set', where: { limb: 'R' }, set: { level: 'accent' } }),
    ),
    fc
      .constantFrom('R', 'R L K', 'X')
      .map((grouping) => (draft: PhraseDraft) => editHead(draft, { grouping })),
  ),
  { maxLength: 30 },
);

describe('undo and redo', () => {
  it('lawThereAndBack: all the way back is where it began, all the way forth where it was', () => {
    fc.assert(
      fc.property(edits, (made) => {
        const { composition } = compose();
        for (const edit of made) composition.edit(edit);
        const last = writeDraft(composition.draft);
        const errors = composition.errors;
        while (composition.canUndo) composition.undo();
        expect(composition.draft).toEqual(DRAFT);
        expect(composition.errors).toEqual([]);
        while (composition.canRedo) composition.redo();
        expect(writeDraft(composition.draft)).toBe(last);
        expect(composition.errors).toEqual(errors);
      }),
    );
  });

  it('takes letters typed in a row into one field back as one', () => {
    const { composition } = compose();
    for (const text of ['E', 'Eb', 'Ebb']) composition.edit(title(text), { joins: 'title' });
    composition.edit((draft) => editHead(draft, { meter: '3/4' }), { joins: 'meter' });
    composition.undo();
    expect([composition.draft.title, composition.draft.meter]).toEqual(['Ebb', '4/4']);
    composition.undo();
    expect(composition.draft.title).toBe('Tide table');
  });

  it('takes typing back in two steps once the field was left in between', () => {
    const { composition } = compose();
    composition.edit(title('Ebb'), { joins: 'title' });
    composition.settle();
    composition.edit(title('Ebb tide'), { joins: 'title' });
    composition.undo();
    expect(composition.draft.title).toBe('Ebb');
  });

  it('has nothing to take back of typing that ended where it began', () => {
    const { composition } = compose();
    composition.edit(title('Ebb'));
    for (const text of ['Ebbs', 'Ebb']) composition.edit(title(text), { joins: 'title' });
    composition.undo();
    expect(composition.draft.title).toBe('Tide table');
    expect(composition.canUndo).toBe(false);
  });

  it('forgets what was undone once something else is done, and nothing for an edit that changes nothing', () => {
    const { composition } = compose();
    composition.edit(title('Ebb'));
    composition.undo();
    composition.edit(title('Tide table'));
    expect(composition.canRedo).toBe(true);
    composition.edit(title('Flood'));
    expect(composition.canRedo).toBe(false);
  });

  it('goes back to the layer that was edited', () => {
    const { composition } = compose();
    composition.edit((draft) => addLayer(draft), { layer: 2 });
    expect(composition.layer).toBe(2);
    composition.undo();
    expect(composition.layer).toBe(1);
    composition.redo();
    expect(composition.layer).toBe(2);
  });
});

describe('the keys of layers and changes', () => {
  const FOUR: PhraseDraft = {
    ...DRAFT,
    layers: [
      { name: 'Sticking', changes: [] },
      {
        name: 'Hands',
        changes: [
          { kind: 'set', where: { limb: 'R' }, set: { level: 'accent' } },
          { kind: 'set', where: { limb: 'L' }, set: { level: 'ghost', voice: 'high tom' } },
        ],
      },
      {
        name: 'Pickup',
        changes: [{ kind: 'pickup', pickup: [{ partialsBefore: 1, limb: 'L' }] }],
      },
    ],
  };

  it('are one for each, none twice, whatever is edited, and the same again once it is undone', () => {
    fc.assert(
      fc.property(edits, (made) => {
        const { composition } = compose({ draft: FOUR });
        const seen = [composition.keys];
        for (const edit of made) {
          composition.edit(edit);
          seen.push(composition.keys);
          const { keys, draft } = composition;
          expect(keys.map(({ changes }) => changes.length)).toEqual(
            draft.layers.map(({ changes }) => changes.length),
          );
          for (const all of [keys.map(({ layer }) => layer), keys.flatMap((one) => one.changes)])
            expect(new Set(all).size).toBe(all.length);
        }
        while (composition.canUndo) composition.undo();
        expect(composition.keys).toEqual(seen[0]);
      }),
    );
  });

  it.each<
    [string, (draft: PhraseDraft, work: DraftCheck) => PhraseDraft, (number | undefined)[], string]
  >([
    ['moved', (draft) => moveLayer(draft, 2, 3), [0, 2, 1], '| 2 | 0 1'],
    ['merged', (draft) => mergeLayers(draft, 2), [0, 1], '| 0 1 2'],
    ['split', (_, work) => splitLayer(work, 2), [0, 1, undefined, 2], '| 0 | 1 | 2'],
    ['duplicated', (draft) => duplicateLayer(draft, 2), [0, 1, undefined, 2], '| 0 1 | + + | 2'],
    ['muted', (draft) => muteLayer(draft, 2, true), [0, 1, 2], '| 0 1 | 2'],
    ['renamed', (draft) => renameLayer(draft, 2, 'x'), [0, 1, 2], '| 0 1 | 2'],
    ['removed', (draft) => removeLayer(draft, 2), [0, 2], '| 2'],
    ['one change less', (draft) => removeChange(draft, 2, 0), [0, 1, 2], '| 1 | 2'],
    [
      'a change written anew',
      (draft) => replaceChange(draft, 2, 1, { kind: 'displace', displace: 2 }),
      [0, 1, 2],
      '| 0 1 | 2',
    ],
    [
      'one more',
      (draft) => addChange(draft, 2, { kind: 'displace', displace: 2 }),
      [0, 1, 2],
      '| 0 1 + | 2',
    ],
  ])('stay with what they stand for: %s', (_, edit, layers, changes) => {
    const { composition } = compose({ draft: FOUR });
    const before = composition.keys;
    const layerKeys = before.map(({ layer }) => layer);
    const changeKeys = before.flatMap((one) => one.changes);
    composition.edit(edit);
    const { keys } = composition;
    expect(keys.map(({ layer }) => layerKeys.indexOf(layer))).toEqual(
      layers.map((place) => place ?? -1),
    );
    const told = keys.map((one) =>
      one.changes.map((key) => String(changeKeys.indexOf(key)).replace('-1', '+')).join(' '),
    );
    expect(told.join(' | ').trim()).toBe(changes);
  });
});

describe('what is kept', () => {
  it('is every edit, a moment after it, and before that noted down for a page that is left', async () => {
    const { composition, saved, unsaved } = compose();
    composition.edit(title('Ebb'));
    expect(unsaved.all).toMatchObject([{ text: expect.stringContaining('"Ebb"') as string }]);
    expect(saved).toEqual([]);
    await vi.advanceTimersByTimeAsync(1000);
    expect(saved.map((file) => file.title)).toEqual(['Ebb']);
    expect(unsaved.all).toEqual([]);
  });

  it('stays noted down when the database refuses it, which is told', async () => {
    const { composition, unsaved } = compose({ problem: 'FULL' });
    composition.edit(title('Ebb'));
    await composition.flush();
    expect(composition.problem).toBe(STORE_MESSAGES.FULL);
    expect(unsaved.all).toMatchObject([{ text: expect.stringContaining('"Ebb"') as string }]);
  });

  it('is nothing of a new phrase until it is edited', async () => {
    const { composition, saved } = compose({ kept: false });
    await vi.advanceTimersByTimeAsync(1000);
    expect([saved.length, composition.kept]).toEqual([0, false]);
    composition.edit(title('Ebb'));
    await composition.flush();
    composition.edit(title('Flood'));
    await composition.flush();
    expect(saved.map((file) => file.title)).toEqual(['Ebb', 'Flood']);
  });
});

describe('a state that is no phrase', () => {
  it('is told with its place, and what sounds is the phrase as it was last right', () => {
    const { composition } = compose();
    composition.edit((draft) => editHead(draft, { grouping: 'R L R L' }));
    composition.edit((draft) => editHead(draft, { grouping: 'R L R Q' }));
    expect(composition.errors.map(({ code, place }) => [code, place])).toEqual([
      ['GROUPING_TOKEN', 'grouping[3]'],
    ]);
    expect(composition.shown).toMatchObject({ layer: 1, current: false });
    expect(composition.entry?.phrase.groupingText).toBe('R L R L');
  });

  it('of a later layer leaves the layer that is edited as it is', () => {
    const { composition } = compose();
    composition.edit((draft) =>
      addChange(addLayer(draft), 2, {
        kind: 'set',
        where: { positions: [9] },
        set: { level: 'ghost' },
      }),
    );
    expect(composition.errors.map(({ layer }) => layer)).toEqual([2]);
    composition.chooseLayer(1);
    expect(composition.shown).toMatchObject({ layer: 1, current: true });
  });
});
