import { parsePhrase, trustPhrase } from '../phrase/file/parse-phrase';
import type { Phrase } from '../phrase/model/phrase';
import { readDraft } from '../phrase/file/read-draft';
import { writeDraft, writePhrase } from '../phrase/file/write-phrase';
import { DraftCheck } from '../phrase/check/draft-check';
import { draftOf, type PhraseDraft } from '../phrase/model/phrase-draft';
import type { OwnTextStore } from '../store/own-text-store';
import type { StoreProblem } from '../store/store-problem';
import type { Result } from '../time/result';
import { randomId } from '../store/random-id';

/** A phrase that can be practised. */
export interface LibraryPhrase {
  readonly id: string;
  readonly phrase: Phrase;
  /** Its file. */
  readonly text: string;
  /** Brought in by the player, not one of ours. */
  readonly own: boolean;
}

/** Where one phrase is chosen: it is chosen anew when it is saved as another. */
export interface PhraseChoice {
  readonly choices: { readonly phraseId: string };
  choosePhrase(entry: LibraryPhrase): void;
}

/** A phrase of the player's own that is not right yet and cannot be practised. */
export interface UnfinishedPhrase {
  readonly id: string;
  /** May be empty. */
  readonly title: string;
  readonly draft: PhraseDraft;
}

export interface AddedPhrase {
  readonly id: string;
  /** Why it is only in memory, if it is. */
  readonly problem: StoreProblem | undefined;
}

const FILES = import.meta.glob<string>('../../shared/phrases/*.json', {
  eager: true,
  query: '?raw',
  import: 'default',
});

/** Texts of the phrases that come with the app, by id: the name of the file. */
const BUILT_IN: ReadonlyMap<string, string> = new Map(
  Object.entries(FILES).map(([path, text]) => [path.split('/').at(-1)!.replace('.json', ''), text]),
);

/** Every phrase there is to choose from: those that come with the app, and the player's own. */
export class Library {
  readonly #store: OwnTextStore;
  readonly #practice: PhraseChoice | undefined;
  #own: readonly LibraryPhrase[] = $state.raw([]);
  #unfinished: readonly UnfinishedPhrase[] = $state.raw([]);
  #problem: string | undefined = $state.raw();
  /** Read when they are asked for: the first screen needs one of them. */
  readonly #builtIn: Record<string, LibraryPhrase | undefined> = {};
  #builtInByTitle: readonly LibraryPhrase[] | undefined;
  /** Of own phrases as they were written since they were read. */
  #drafts: Readonly<Record<string, PhraseDraft>> = {};

  constructor(store: OwnTextStore, practice?: PhraseChoice) {
    this.#store = store;
    this.#practice = practice;
  }

  get phrases(): readonly LibraryPhrase[] {
    this.#builtInByTitle ??= [...BUILT_IN.keys()]
      .map((id) => this.#builtInOf(id)!)
      .sort((a, b) => a.phrase.title.localeCompare(b.phrase.title));
    return [...this.#own, ...this.#builtInByTitle];
  }

  get unfinished(): readonly UnfinishedPhrase[] {
    return this.#unfinished;
  }

  /** Why own phrases may be missing, if they may. */
  get problem(): string | undefined {
    return this.#problem;
  }

  find(id: string): LibraryPhrase | undefined {
    return this.#own.find((entry) => entry.id === id) ?? this.#builtInOf(id);
  }

  /** What a phrase, finished or not, is written as. */
  draftFor(id: string): PhraseDraft | undefined {
    const entry = this.find(id);
    return entry
      ? (this.#drafts[id] ?? readDraft(entry.text) ?? draftOf(entry.phrase))
      : this.#unfinished.find((one) => one.id === id)?.draft;
  }

  /** Reads the player's own phrases from the store. */
  async load(): Promise<void> {
    const { texts, problem } = await this.#store.list();
    this.#problem = problem?.message;
    this.#own = [];
    this.#unfinished = [];
    for (const text of texts) if (!this.#read(text.id, text.text)) this.#store.setAside(text);
  }

  /** One more own phrase. */
  async add(phrase: Phrase): Promise<AddedPhrase> {
    const id = newId();
    const text = writePhrase(phrase);
    const stored = await this.#store.put({ id, title: phrase.title, text });
    this.#own = [...this.#own, { id, phrase, text, own: true }];
    return { id, problem: problemOf(stored) };
  }

  /** What stands in the store under this id, as far as this page knows. */
  storedText(id: string): string | undefined {
    return this.#store.storedText(id);
  }

  /**
   * Keeps an own phrase under its id, finished or not; it is in the list at once. Error: it is only in memory, or another
   * tab has changed it, and then it is in the list as it is there.
   */
  async save(id: string, { draft, phrase }: DraftCheck): Promise<Result<void, StoreProblem>> {
    const text = writeDraft(draft);
    this.#drafts = { ...this.#drafts, [id]: draft };
    const entry = phrase && { id, phrase, text, own: true };
    this.#takeIn(id, entry, draft);
    if (entry && id === this.#practice?.choices.phraseId) this.#practice.choosePhrase(entry);
    const stored = await this.#store.put({ id, title: draft.title, text });
    if (!stored.ok && stored.errors[0]!.code === 'CHANGED') await this.#takeFromStore(id);
    return stored;
  }

  /** A second phrase like the one of that id. */
  async duplicate(id: string): Promise<AddedPhrase | undefined> {
    const draft = this.draftFor(id);
    if (!draft) return undefined;
    const copy = newId();
    const check = new DraftCheck({ ...draft, title: copyTitle(draft.title) });
    return { id: copy, problem: problemOf(await this.save(copy, check)) };
  }

  /** Error: it may come back. */
  async remove(id: string): Promise<Result<void, StoreProblem>> {
    this.#takeIn(id, undefined, undefined);
    this.#forgetDraft(id);
    const removed = await this.#store.remove(id);
    if (!removed.ok && removed.errors[0]!.code === 'CHANGED') await this.load();
    return removed;
  }

  /** What another tab has made of a phrase, in place of what was written here. */
  async #takeFromStore(id: string): Promise<void> {
    this.#forgetDraft(id);
    await this.load();
    const entry = this.find(id);
    if (entry && id === this.#practice?.choices.phraseId) this.#practice.choosePhrase(entry);
  }

  #forgetDraft(id: string): void {
    this.#drafts = Object.fromEntries(
      Object.entries(this.#drafts).filter(([other]) => other !== id),
    );
  }

  #builtInOf(id: string): LibraryPhrase | undefined {
    const text = BUILT_IN.get(id);
    if (text === undefined) return undefined;
    return (this.#builtIn[id] ??= { id, phrase: trustPhrase(text), text, own: false });
  }

  /** False when the text is neither a phrase nor a draft of one. */
  #read(id: string, text: string): boolean {
    const entry = ownEntry(id, text);
    const draft = entry ? undefined : readDraft(text);
    this.#takeIn(id, entry, draft);
    return entry !== undefined || draft !== undefined;
  }

  /** In its place in the list, under phrases or unfinished ones. */
  #takeIn(id: string, entry: LibraryPhrase | undefined, draft: PhraseDraft | undefined): void {
    this.#own = put(this.#own, id, entry);
    const unfinished = entry || !draft ? undefined : { id, title: draft.title, draft };
    this.#unfinished = put(this.#unfinished, id, unfinished);
  }
}

/** An id for one more own phrase. */
export const newId = (): string => `own-${randomId()}`;

/** The title of a copy. @example copyTitle('Slip') // => 'Slip, copy' */
export const copyTitle = (title: string): string => `${title.slice(0, 110)}, copy`;

function put<T extends { readonly id: string }>(
  list: readonly T[],
  id: string,
  item: T | undefined,
): readonly T[] {
  if (!item) return list.filter((one) => one.id !== id);
  return list.some((one) => one.id === id)
    ? list.map((one) => (one.id === id ? item : one))
    : [...list, item];
}

function ownEntry(id: string, text: string): LibraryPhrase | undefined {
  const parsed = parsePhrase(text);
  return parsed.ok ? { id, phrase: parsed.value, text, own: true } : undefined;
}

const problemOf = (stored: Result<unknown, StoreProblem>): StoreProblem | undefined =>
  stored.ok ? undefined : stored.errors[0]!;
