import { parsePhrase } from '../phrase/parse-phrase';
import type { Phrase } from '../phrase/phrase';
import { writePhrase } from '../phrase/write-phrase';
import type { OwnTextStore } from '../store/own-text-store';

/** A phrase that can be practised. */
export interface LibraryPhrase {
  readonly id: string;
  readonly phrase: Phrase;
  /** Its file. */
  readonly text: string;
  /** Brought in by the player, not one of ours. */
  readonly own: boolean;
}

const FILES = import.meta.glob<string>('../../shared/phrases/*.json', {
  eager: true,
  query: '?raw',
  import: 'default',
});

/** Every phrase there is to choose from: those that come with the app, and the player's own. */
export class Library {
  readonly #store: OwnTextStore;
  #own: readonly LibraryPhrase[] = $state.raw([]);
  #problems: readonly string[] = $state.raw([]);
  readonly #builtIn: readonly LibraryPhrase[];

  constructor(store: OwnTextStore, files: Readonly<Record<string, string>> = FILES) {
    this.#store = store;
    this.#builtIn = Object.entries(files)
      .map(([path, text]) => entryOf(path.split('/').at(-1)!.replace('.json', ''), text, false))
      .filter((entry) => entry !== undefined)
      .sort((a, b) => a.phrase.title.localeCompare(b.phrase.title));
  }

  get phrases(): readonly LibraryPhrase[] {
    return [...this.#own, ...this.#builtIn];
  }

  /** Sentences on own phrases that could not be read. */
  get problems(): readonly string[] {
    return this.#problems;
  }

  find(id: string): LibraryPhrase | undefined {
    return this.phrases.find((entry) => entry.id === id);
  }

  /** Reads the player's own phrases from the store. */
  async load(): Promise<void> {
    const { texts, problem } = await this.#store.list();
    const entries = texts.map(({ id, text }) => entryOf(id, text, true));
    this.#own = entries.filter((entry) => entry !== undefined);
    this.#problems = problem ? [problem.message] : [];
  }

  /** Takes a phrase file in; the sentences say what is wrong with it, none when it is in. */
  async importText(text: string, fileName: string): Promise<readonly string[]> {
    const parsed = parsePhrase(text);
    if (!parsed.ok)
      return parsed.errors.map(({ place, message }) =>
        [fileName, place, message].filter((part) => part !== '').join(': '),
      );
    const { problem } = await this.add(parsed.value);
    return problem === undefined ? [] : [problem];
  }

  /** One more own phrase: its id, and why it is only in memory, if it is. */
  async add(phrase: Phrase): Promise<{ id: string; problem: string | undefined }> {
    const id = `own-${crypto.randomUUID()}`;
    const text = writePhrase(phrase);
    const problem = await this.#store.put({ id, title: phrase.title, text });
    this.#own = [...this.#own, { id, phrase, text, own: true }];
    return { id, problem: problem?.message };
  }

  async remove(id: string): Promise<void> {
    await this.#store.remove(id);
    this.#own = this.#own.filter((entry) => entry.id !== id);
  }
}

function entryOf(id: string, text: string, own: boolean): LibraryPhrase | undefined {
  const parsed = parsePhrase(text);
  return parsed.ok ? { id, phrase: parsed.value, text, own } : undefined;
}
