import { deleteDB } from 'idb';
import { beforeEach, expect, it } from 'vitest';
import { DraftCheck } from '../../src/phrase/check/draft-check';
import { Library, type LibraryPhrase } from '../../src/practice/library.svelte';
import { PracticeDatabase } from '../../src/store/database';
import { phraseStore } from '../../src/store/own-text-store';
import { storeProblem } from '../../src/store/store-problem';
import { bad } from '../../src/time/result';
import { phraseOf } from '../phrase/phrase-of';

const NAME = 'library-under-test';
beforeEach(() => deleteDB(NAME));

const store = () => phraseStore(new PracticeDatabase({ name: NAME }));
const own = (library: Library) => library.phrases.filter((entry) => entry.own);

it('takes a phrase in', async () => {
  const library = new Library(store());
  expect(await library.add(phraseOf({ title: 'Ebb' }))).toMatchObject({ problem: undefined });
  expect(own(library).map(({ phrase }) => phrase.title)).toEqual(['Ebb']);
});

it('says that a phrase is only in memory, and has it there', async () => {
  const full = Object.assign(store(), { put: async () => bad(storeProblem('FULL')) });
  const library = new Library(full);
  expect(await library.add(phraseOf({}))).toMatchObject({ problem: { code: 'FULL' } });
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
