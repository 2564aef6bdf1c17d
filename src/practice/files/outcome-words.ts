import { countOf, list } from '../../words/words';

/** What became of a phrase that was opened. */
export interface PhraseOutcome {
  readonly title: string;
  readonly how: 'kept' | 'replaced' | 'here' | 'left';
  /** Where it is; undefined where it was left. */
  readonly id?: string;
  /** Why it is only in memory, if it is. */
  readonly problem?: string | undefined;
}

/** More titles than this are counted and not listed. Chosen: a line. */
const MOST_TITLES = 5;

/**
 * What became of phrases that were opened, in a sentence or a few.
 *
 * @example phrasesTakenIn([{ title: 'Slip', how: 'kept', id: 'a' }]) // => 'Slip is among your phrases now.'
 */
export function phrasesTakenIn(outcomes: readonly PhraseOutcome[]): string {
  const of = (how: PhraseOutcome['how']) => outcomes.filter((one) => one.how === how);
  const sentence = (how: PhraseOutcome['how'], one: string, several: string) => {
    const titles = of(how).map(({ title }) => title);
    if (titles.length === 0) return [];
    const who = titles.length > MOST_TITLES ? countOf(titles.length, 'phrase') : list(titles);
    return [`${who} ${titles.length === 1 ? one : several}.`];
  };
  const problem = outcomes.find((one) => one.problem !== undefined)?.problem;
  return [
    ...sentence('kept', 'is among your phrases now', 'are among your phrases now'),
    ...sentence('replaced', 'is replaced', 'are replaced'),
    ...sentence('here', 'was here already', 'were here already'),
    ...sentence('left', 'was left', 'were left'),
    ...(problem === undefined ? [] : [problem]),
  ].join(' ');
}
