import { countOf } from '../../words/words';

/** What was not read from a file of music, or only guessed. */
export interface FileRemark {
  /** 1-based bar of the phrase in the file, 0 for a pickup; undefined where it is about all of it. */
  readonly bar: number | undefined;
  /** A sentence; one about a bar begins with it. */
  readonly sentence: string;
}

export const remarkAt = (bar: number, words: string): FileRemark => ({
  bar,
  sentence: `${bar === 0 ? 'Pickup' : `Bar ${bar}`}: ${words}.`,
});

export const remarkOnAll = (sentence: string): FileRemark => ({ bar: undefined, sentence });

/** One remark for each bar that holds some of these, in bar order: how many, and what is the matter with them. */
export function remarksByBar(bars: readonly number[], words: string): FileRemark[] {
  const counts = new Map<number, number>();
  for (const bar of bars) counts.set(bar, (counts.get(bar) ?? 0) + 1);
  return [...counts]
    .sort(([a], [b]) => a - b)
    .map(([bar, count]) => remarkAt(bar, `${countOf(count, 'note')} left out, ${words}`));
}

/** The words of `remarksByBar` for notes at no place of the grid, and for those that a hand or foot more would play. */
export const OFF_THE_GRID = 'between the partials';
export const NO_LIMB_LEFT = 'since no limb is left to strike them';

/** Another meter begins, such as "3/4". */
export const meterChanges = (bar: number, meterText: string): FileRemark =>
  remarkAt(bar, `the meter changes to ${meterText}; from here on nothing is read`);

/** Another tempo begins than the one that is read. */
export const tempoChanges = (bar: number, bpm: number): FileRemark =>
  remarkAt(bar, `the tempo changes; a phrase has one, and ${bpm} beats a minute stay`);

/**
 * What is to be said where hands are guessed.
 *
 * @param share of the hands' strokes, how many the file says the hand of, 0 to 1
 */
export const handsGuessed = (share: number): readonly FileRemark[] =>
  share === 1 ? [] : [remarkOnAll(share === 0 ? NO_HANDS : SOME_HANDS)];

const NO_HANDS =
  'The file does not say which hand strikes; the sticking is a guess. Correct it in the phrase.';
const SOME_HANDS =
  'The file says of some strokes only which hand strikes; the others are a guess. Correct them in the phrase.';

/** What is about all of a file first, then bar by bar. */
export const inBarOrder = (remarks: readonly FileRemark[]): readonly FileRemark[] =>
  remarks.toSorted((a, b) => (a.bar ?? -1) - (b.bar ?? -1));
