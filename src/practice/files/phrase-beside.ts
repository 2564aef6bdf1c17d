import { writePhrase } from '../../phrase/file/write-phrase';
import { another, freeTitle } from '../../phrase/model/free-title';
import type { Phrase } from '../../phrase/model/phrase';
import type { Library } from '../library.svelte';

/** A phrase that is opened, beside what is here under its title. */
export interface PhraseBeside {
  readonly phrase: Phrase;
  /** 'same' is the very phrase, 'own' another of the player's own, 'ours' another that comes with the app. */
  readonly here: { readonly id: string; readonly as: 'same' | 'own' | 'ours' } | undefined;
  /** What it is called when it is kept: its own title, or the first like it that nothing has. */
  readonly freeTitle: string;
}

/** What becomes of it: kept under its free title, put in the place of the own one that is here, or left. */
export type PhraseAnswer = 'keep' | 'replace' | 'leave';

/** Phrases that are opened, in their order, each beside what is here; two of one title get two. */
export function phrasesBeside(
  phrases: readonly Phrase[],
  library: Pick<Library, 'phrases' | 'unfinished'>,
): PhraseBeside[] {
  const taken = titlesIn(library);
  return phrases.map((phrase) => {
    const here = hereOf(phrase, library);
    const free = freeTitle(phrase.title, another, taken);
    if (here?.as !== 'same') taken.push(free);
    return { phrase, here, freeTitle: free };
  });
}

/** The titles of all phrases, finished or not. */
export const titlesIn = ({
  phrases,
  unfinished,
}: Pick<Library, 'phrases' | 'unfinished'>): string[] => [
  ...phrases.map(({ phrase }) => phrase.title),
  ...unfinished.map(({ title }) => title),
];

function hereOf(
  phrase: Phrase,
  { phrases, unfinished }: Pick<Library, 'phrases' | 'unfinished'>,
): PhraseBeside['here'] {
  const namesakes = phrases.filter((entry) => entry.phrase.title === phrase.title);
  const text = writePhrase(phrase);
  const same = namesakes.find((entry) => writePhrase(entry.phrase) === text);
  if (same) return { id: same.id, as: 'same' };
  const own =
    namesakes.find((entry) => entry.own) ?? unfinished.find(({ title }) => title === phrase.title);
  if (own) return { id: own.id, as: 'own' };
  return namesakes[0] && { id: namesakes[0].id, as: 'ours' };
}
