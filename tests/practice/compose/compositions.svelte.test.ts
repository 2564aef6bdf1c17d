import { deleteDB } from 'idb';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { editHead } from '../../../src/phrase/edit/edit-head';
import type { PhraseDraft } from '../../../src/phrase/model/phrase-draft';
import { Compositions } from '../../../src/practice/compose/compositions';
import { Library } from '../../../src/practice/library.svelte';
import { PracticeDatabase } from '../../../src/store/database';
import { phraseStore } from '../../../src/store/own-text-store';
import { SettingsStore } from '../../../src/store/settings-store';

const NAME = 'compositions-under-test';
beforeEach(async () => {
  localStorage.clear();
  await deleteDB(NAME);
});

/** The library and compositions of a page; a second one is the page after a reload. */
async function page() {
  const library = new Library(phraseStore(new PracticeDatabase({ name: NAME })));
  await library.load();
  const compositions = new Compositions(library, new SettingsStore());
  await compositions.recover();
  return { library, compositions };
}
const named = (title: string) => (file: PhraseDraft) => editHead(file, { title });
const titles = (library: Library) =>
  library.phrases.filter(({ own }) => own).map(({ phrase }) => phrase.title);

describe('phrases being written', () => {
  it('begin with the least that sounds, and are in the library from the first edit on', async () => {
    const { library, compositions } = await page();
    const onKept = vi.fn();
    const made = compositions.open(undefined, onKept)!;
    expect(made.errors).toEqual([]);
    expect(titles(library)).toEqual([]);
    made.edit(named('Ebb'));
    await made.flush();
    expect(titles(library)).toEqual(['Ebb']);
    expect(onKept).toHaveBeenCalledExactlyOnceWith(made.id);
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
