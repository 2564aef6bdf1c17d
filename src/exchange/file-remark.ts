import { countOf } from '../words/words';

/** What was not read from a file, or only guessed. */
export interface FileRemark {
  /** 1-based bar of the phrase in the file; undefined where it is about all of it. */
  readonly bar: number | undefined;
  /** A sentence; one about a bar begins with it. */
  readonly sentence: string;
}

export const remarkAt = (bar: number, words: string): FileRemark => ({
  bar,
  sentence: `Bar ${bar}: ${words}.`,
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
