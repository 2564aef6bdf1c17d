import { cycleSteps, withSteps } from '../model/grouping-text';
import type { Phrase } from '../model/phrase';
import type { PhraseDraft } from '../model/phrase-draft';
import { pinNumbers } from './pin-numbers';
import { rewrite } from './rewrite';

/**
 * A phrase with a new cycle of `length` partials written out. `source` says which partial of the old cycle, from 0,
 * sounds on a partial of the new one, with all that changes say about it; undefined where it rests.
 */
export function writeOut(
  phrase: Phrase,
  length: number,
  source: (partial: number) => number | undefined,
): PhraseDraft {
  const sources = Array.from({ length }, (_, partial) => source(partial));
  const once = cycleSteps(phrase.grouping, phrase.cycle);
  const rewritten = rewrite(pinNumbers(phrase), {
    positions: (position) => sources.flatMap((from, i) => (from === position - 1 ? [i + 1] : [])),
  });
  return withSteps(
    rewritten,
    sources.map((from) => (from === undefined ? [] : once[from]!)),
  );
}
