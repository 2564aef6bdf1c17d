import { deleteDB } from 'idb';
import { beforeEach, expect, it } from 'vitest';
import { DraftCheck } from '../../src/phrase/check/draft-check';
import { writePhrase } from '../../src/phrase/file/write-phrase';
import { Library, type LibraryPhrase } from '../../src/practice/library.svelte';
import { PracticeDatabase } from '../../src/store/database';
import { phraseStore } from '../../src/store/own-text-store';
import { storeProblem } from '../../src/store/store-problem';
import { bad } from '../../src/time/result';
import { phraseOf } from '../phrase/phrase-of';

const NAME = 'library-under-test';
beforeEach(() => deleteDB(NAME));

const TEXT = writePhrase(phraseOf({ title: 'Ebb' }));
const store = () => phraseStore(new PracticeDatabase({ name: NAME }));
const own = (library: Library) => library.phrases.filter((entry) => entry.own);

it('takes a phrase file in', async () => {
  const library = new Library(store());
  expect(await library.importText(TEXT)).toEqual({ ok: true, value: undefined });
  expect(own(library).map(({ phrase }) => phrase.title)).toEqual(['Ebb']);
});

it('says with code and place what is wrong with a phrase file, and takes nothing in', async () => {
  const library = new Library(store());
  const taken = await library.importText(TEXT.replace('4/4', '4/3'));
  expect(taken).toMatchObject({ ok: false, errors: [{ code: 'METER', place: 'meter' }] });
  expect(own(library)).toEqual([]);
});

it('says that a phrase file is only in memory, and has it there', async () => {
  const full = Object.assign(store(), { put: async () => bad(storeProblem('FULL')) });
  const library = new Library(full);
  expect(await library.importText(TEXT)).toMatchObject({ ok: false, errors: [{ code: 'FULL' }] });
  expect(own(library).length).toBe(1);
});

it('has a phrase that is saved chosen anew where it is the chosen one, and no other', async () => {
  const shown: LibraryPhrase[] = [];
  const choices = { phraseId: '' };
  const library = new Library(store(), {
    choices,
    choosePhrase: (entry) => void shown.push(entry),
  });
  const { id } = await library.add(phraseOf({ title: 'Ebb' }));
  const other = await library.add(phraseOf({ title: 'Flood' }));
  choices.phraseId = id;
  const check = new DraftCheck({ ...library.draftFor(id)!, title: 'Neap' });
  await library.save(other.id, check);
  expect(shown).toEqual([]);
  await library.save(id, check);
  expect(shown).toEqual([library.find(id)]);
  await library.save(id, new DraftCheck({ ...check.draft, grouping: '' }));
  expect(shown.map(({ phrase }) => phrase.title)).toEqual(['Neap']);
});
