import type { Phrase } from '../phrase';
import type { PhraseFile } from '../phrase-file';
import { cycleSteps, groupingText } from './grouping-text';
import { pinNumbers } from './pin-numbers';
import { rewrite } from './rewrite';

/**
 * A phrase's file with a new cycle of `length` partials written out. `source` says which partial of the old cycle,
 * from 0, sounds on a partial of the new one, with all that changes say about it; undefined where it rests.
 */
export function writeOut(
  phrase: Phrase,
  length: number,
  source: (partial: number) => number | undefined,
): PhraseFile {
  const sources = Array.from({ length }, (_, partial) => source(partial));
  const once = cycleSteps(phrase.grouping, phrase.cycle);
  const file = rewrite(pinNumbers(phrase), {
    positions: (position) => sources.flatMap((from, i) => (from === position - 1 ? [i + 1] : [])),
  });
  const steps = sources.map((from) => (from === undefined ? [] : once[from]!));
  return { ...file, grouping: groupingText(steps), cycle: length };
}
