import { deleteDB } from 'idb';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { editHead } from '../../../src/phrase/edit/edit-head';
import type { PhraseDraft } from '../../../src/phrase/model/phrase-draft';
import { Compositions } from '../../../src/practice/compose/compositions.svelte';
import { UnsavedEdits, type OtherTabs } from '../../../src/practice/compose/unsaved-edits';
import { Library } from '../../../src/practice/library.svelte';
import { PracticeDatabase } from '../../../src/store/database';
import { hold, isOnHold } from '../../../src/store/hold';
import { phraseStore } from '../../../src/store/own-text-store';
import { SettingsStore } from '../../../src/store/settings-store';
import { storeProblem } from '../../../src/store/store-problem';
import { bad } from '../../../src/time/result';
import { writeDraft } from '../../../src/phrase/file/write-phrase';
import { withoutLocks } from '../../store/without-locks';
import { NO_OTHER_TABS } from './no-other-tabs';

const NAME = 'compositions-under-test';
beforeEach(async () => {
  localStorage.clear();
  await deleteDB(NAME);
});

/** The library and compositions of a page; a second one is the page after a reload. */
async function page(tabs: OtherTabs = NO_OTHER_TABS) {
  const database = new PracticeDatabase({ name: NAME });
  const library = new Library(phraseStore(database));
  await library.load();
  const unsaved = new UnsavedEdits(new SettingsStore(), tabs);
  const compositions = new Compositions(library, unsaved);
  await compositions.recover();
  return { library, compositions, unsaved, database };
}
/** One more tab, beside others that live on. */
const tab = () => page({ hold, isOnHold });
const named = (title: string) => (file: PhraseDraft) => editHead(file, { title });
const titles = (library: Library) =>
  library.phrases.filter(({ own }) => own).map(({ phrase }) => phrase.title);

describe('phrases being written', () => {
  it('begin with the least that sounds, and are in the library from the first edit on', async () => {
    const { library, compositions } = await page();
    const made = compositions.open(undefined)!;
    expect(made.errors).toEqual([]);
    expect(titles(library)).toEqual([]);
    made.edit(named('Ebb'));
    await made.flush();
    expect(titles(library)).toEqual(['Ebb']);
    expect(compositions.open(made.id)).toBe(made);
    expect(titles((await page()).library)).toEqual(['Ebb']);
  });

  it('that came with the app are copied, and stay as they are', async () => {
    const { library, compositions } = await page();
    const copy = compositions.open('quay-steps')!;
    expect(copy.id).not.toBe('quay-steps');
    copy.edit((file) => editHead(file, { tempoBpm: 70 }));
    await copy.flush();
    expect(titles(library)).toEqual(['Quay Steps, copy']);
    expect(library.find('quay-steps')?.phrase.tempoBpm).toBe(88);
  });

  it('left before they were kept are there after a reload, finished or not', async () => {
    const before = await page();
    before.compositions.open(undefined)!.edit(named('Ebb'));
    before.compositions.open(undefined)!.edit((file) => editHead(file, { grouping: 'R Q' }));
    const after = await page();
    expect(titles(after.library)).toEqual(['Ebb']);
    expect(after.library.unfinished.map(({ draft }) => draft.grouping)).toEqual(['R Q']);
    const [draft] = after.library.unfinished;
    const opened = after.compositions.open(draft!.id)!;
    opened.edit((file) => editHead(file, { grouping: 'R K' }));
    await opened.flush();
    expect(after.library.unfinished).toEqual([]);
  });

  it('are gone once removed, edits that were not kept yet with them', async () => {
    const { library, compositions } = await page();
    const made = compositions.open(undefined)!;
    made.edit(named('Ebb'));
    expect((await compositions.remove(made.id)).ok).toBe(true);
    expect(titles(library)).toEqual([]);
    expect(compositions.open(made.id)).toBeUndefined();
    expect(titles((await page()).library)).toEqual([]);
  });

  it('do not exist under an unknown id', async () => {
    expect((await page()).compositions.open('own-nothing')).toBeUndefined();
  });
});

/** A phrase called "Slip" that two tabs have open. */
async function inTwoTabs() {
  const first = await tab();
  const made = first.compositions.open(undefined)!;
  made.edit(named('Slip'));
  await made.flush();
  const second = await tab();
  return { first, second, made, same: second.compositions.open(made.id)! };
}
const tempo = (tempoBpm: number) => (file: PhraseDraft) => editHead(file, { tempoBpm });
const stored = async () => {
  const { library } = await page();
  return library.phrases
    .filter(({ own }) => own)
    .map(({ phrase }) => `${phrase.title} at ${phrase.tempoBpm}`);
};

describe('a phrase that two tabs write on', () => {
  it('is kept twice, under a free title, and the second to save is told', async () => {
    const { first, second, made, same } = await inTwoTabs();
    made.edit(tempo(70));
    await made.flush();
    same.edit(tempo(110));
    await same.flush();
    expect(await stored()).toEqual(['Slip at 70', 'Slip, 2 at 110']);
    expect(first.compositions.notices).toEqual([]);
    expect(second.compositions.notices).toEqual([
      'Another tab has changed the same phrase. What you wrote is kept beside it, as "Slip, 2".',
    ]);
    expect(titles(second.library)).toEqual(['Slip', 'Slip, 2']);
    expect(second.compositions.open(same.id)).toBe(same);
    expect(same.problem).toBeUndefined();
    // Both go on by themselves.
    same.edit(tempo(120));
    made.edit(tempo(60));
    await Promise.all([same.flush(), made.flush()]);
    expect(await stored()).toEqual(['Slip at 60', 'Slip, 2 at 120']);
  });

  it('keeps its title where the other tab has given its own another', async () => {
    const { made, same } = await inTwoTabs();
    made.edit(named('Tide'));
    await made.flush();
    same.edit(tempo(110));
    await same.flush();
    expect(await stored()).toEqual(['Slip at 110', 'Tide at 90']);
  });

  it('is one phrase as long as only one tab writes, and where both come to the same', async () => {
    const { second, made, same } = await inTwoTabs();
    same.edit(tempo(110));
    await same.flush();
    same.edit(tempo(120));
    await same.flush();
    made.edit(tempo(120));
    await made.flush();
    expect(await stored()).toEqual(['Slip at 120']);
    expect(second.compositions.notices).toEqual([]);
  });

  it('is not removed by a tab that does not know what another made of it', async () => {
    const { second, made } = await inTwoTabs();
    made.edit(tempo(70));
    await made.flush();
    expect(await second.compositions.remove(made.id)).toMatchObject({
      ok: false,
      errors: [{ code: 'CHANGED' }],
    });
    expect(titles(second.library)).toEqual(['Slip']);
    expect(await stored()).toEqual(['Slip at 70']);
  });
});

describe.each([
  ['with locks', () => () => undefined],
  ['where there are no locks', withoutLocks],
])('what tabs have noted down and not kept yet, %s', (_, prepare) => {
  it('is left alone by a tab that opens beside them, and by each other', async () => {
    const restore = prepare();
    const { first, second, made, same } = await inTwoTabs();
    for (const { database } of [first, second])
      vi.spyOn(database, 'write').mockResolvedValue(bad(storeProblem('FULL')));
    made.edit(tempo(70));
    same.edit(tempo(110));
    await Promise.all([made.flush(), same.flush()]);
    const third = await tab();
    expect(third.library.draftFor(made.id)?.tempoBpm).toBe(90);
    for (const [{ unsaved }, text] of [
      [first, '"tempoBpm": 70'],
      [second, '"tempoBpm": 110'],
    ] as const) {
      expect(unsaved.all).toMatchObject([{ text: expect.stringContaining(text) as string }]);
      expect(unsaved.ofAllTabs).toHaveLength(2);
      expect(unsaved.ofAllTabs[0]).toEqual(unsaved.all[0]);
    }
    restore();
    // Once both are gone, one of them is kept in its place and the other beside it.
    const after = await page();
    expect((await stored()).map((one) => one.replace(/70|110/, 'n'))).toEqual([
      'Slip at n',
      'Slip, 2 at n',
    ]);
    expect(after.compositions.notices).toHaveLength(1);
    expect((await page()).compositions.notices).toEqual([]);
  });
});

it('what a page of before noted down is kept', async () => {
  const { made } = await inTwoTabs();
  const text = writeDraft(tempo(55)(made.draft));
  new SettingsStore().write('unsaved edits', { [made.id]: text });
  await page();
  expect(await stored()).toEqual(['Slip at 55']);
  expect(Object.keys(localStorage)).toEqual([]);
});
