import type { Phrase } from '../../phrase/phrase';
import { writePhrase } from '../../phrase/write-phrase';
import type { Library } from '../library.svelte';
import { freeTitle } from '../free-title';

/** A variation in the library. */
export interface Kept {
  readonly id: string;
  readonly title: string;
  /** Why it is only in memory, if it is. */
  readonly problem: string | undefined;
}

/** Puts variations into the library, each once. */
export class Keeping {
  readonly #library: Pick<Library, 'add' | 'phrases'>;
  #kept: Readonly<Record<string, Kept>> = $state.raw({});

  constructor(library: Pick<Library, 'add' | 'phrases'>) {
    this.#library = library;
  }

  /** What became of a variation at a tempo; undefined when it is not kept, or was removed again. */
  find(phrase: Phrase, bpm: number): Kept | undefined {
    const kept = this.#kept[keyOf(phrase, bpm)];
    return kept && this.#library.phrases.some(({ id }) => id === kept.id) ? kept : undefined;
  }

  /** Keeps it under a title of its own, with the tempo it is playable at. */
  async keep(phrase: Phrase, bpm: number): Promise<void> {
    if (this.find(phrase, bpm)) return;
    const taken = this.#library.phrases.map((entry) => entry.phrase.title);
    const title = variationTitle(phrase.title, taken);
    const { id, problem } = await this.#library.add({ ...phrase, title, tempoBpm: bpm });
    this.#kept = { ...this.#kept, [keyOf(phrase, bpm)]: { id, title, problem } };
  }
}

const keyOf = (phrase: Phrase, bpm: number): string => writePhrase({ ...phrase, tempoBpm: bpm });

/**
 * The title of the next variation of a phrase, or of a variation of it.
 *
 * @example variationTitle('Slip, variation 1', ['Slip', 'Slip, variation 1']) // => 'Slip, variation 2'
 */
export const variationTitle = (title: string, taken: readonly string[]): string =>
  freeTitle(title.replace(/, variation \d+$/, ''), (number) => `, variation ${number}`, taken);
