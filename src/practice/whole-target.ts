import type { Phrase } from '../phrase/model/phrase';
import type { TakeExercise } from '../take/take-exercise';
import type { Choices } from './choices';
import type { LibraryPhrase } from './library.svelte';

/** What is practised: a layer of the phrase that was chosen, or an exercise on it. */
export interface PracticeTarget {
  /** The phrase that was chosen, led by the player's hand. */
  readonly chosen: Phrase;
  readonly phrase: Phrase;
  /** The file of the phrase. */
  readonly text: string;
  /** 1-based. */
  readonly layer: number;
  /** Whose last layer the app plays beside it; undefined where it plays nothing. */
  readonly whole: Phrase | undefined;
  readonly isExercise: boolean;
  /** What it was made of, where it is one. */
  readonly exercise: TakeExercise | undefined;
  /** Why there is no such exercise. */
  readonly problem: string | undefined;
}

/** Before anything of it can be worked out. */
export const wholeTarget = ({ phrase, text }: LibraryPhrase, layer: number): PracticeTarget => ({
  chosen: phrase,
  phrase,
  text,
  layer: Math.min(layer, phrase.layers.length),
  whole: undefined,
  isExercise: false,
  exercise: undefined,
  problem: undefined,
});

/** What a choice makes of a phrase; as long as what works it out is not there, the whole layer as it is written. */
export const targetOf = (
  tools: { practiceTarget(entry: LibraryPhrase, choices: Choices): PracticeTarget } | undefined,
  entry: LibraryPhrase | undefined,
  choices: Choices,
): PracticeTarget | undefined =>
  entry && (tools?.practiceTarget(entry, choices) ?? wholeTarget(entry, choices.layer));
