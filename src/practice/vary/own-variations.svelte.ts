import type { Phrase } from '../../phrase/model/phrase';
import { writePhrase } from '../../phrase/file/write-phrase';
import type { Library } from '../library.svelte';
import { freeTitle } from '../../phrase/model/free-title';

/** A variation in the library. */
export interface OwnVariation {
  readonly id: string;
  readonly title: string;
  /** Why it is only in memory, if it is. */
  readonly problem: string | undefined;
}

/** Puts variations into the library, each once. */
export class OwnVariations {
  readonly #library: Pick<Library, 'add' | 'phrases'>;
  #problems: Readonly<Record<string, string | undefined>> = $state.raw({});

  constructor(library: Pick<Library, 'add' | 'phrases'>) {
    this.#library = library;
  }

  /** The phrase of the player's own that a variation at a tempo is, by whatever title; undefined when there is none. */
  find(phrase: Phrase, bpm: number): OwnVariation | undefined {
    const wanted = untitled({ ...phrase, tempoBpm: bpm });
    const kept = this.#library.phrases.find(
      (one) => one.own && knownUntitled(one.phrase) === wanted,
    );
    return kept && { id: kept.id, title: kept.phrase.title, problem: this.#problems[kept.id] };
  }

  /** Keeps it under a title of its own, with the tempo it is playable at. */
  async keep(phrase: Phrase, bpm: number): Promise<void> {
    if (this.find(phrase, bpm)) return;
    const taken = this.#library.phrases.map((entry) => entry.phrase.title);
    const title = variationTitle(phrase.title, taken);
    const { id, problem } = await this.#library.add({ ...phrase, title, tempoBpm: bpm });
    this.#problems = { ...this.#problems, [id]: problem?.message };
  }
}

const untitled = (phrase: Phrase): string => writePhrase({ ...phrase, title: '' });

const known = new WeakMap<Phrase, string>();
function knownUntitled(phrase: Phrase): string {
  const text = known.get(phrase) ?? untitled(phrase);
  known.set(phrase, text);
  return text;
}

/**
 * The title of the next variation of a phrase, or of a variation of it.
 *
 * @example variationTitle('Slip, variation 1', ['Slip', 'Slip, variation 1']) // => 'Slip, variation 2'
 */
export const variationTitle = (title: string, taken: readonly string[]): string =>
  freeTitle(title.replace(/, variation \d+$/, ''), (number) => `, variation ${number}`, taken);
