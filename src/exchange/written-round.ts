import { comesAgain, type SoundLines } from '../phrase/decompose/comes-again';
import { MAX_PATTERN } from '../phrase/model/phrase-file';

/** What comes again: the partials from `start` on, which is before bar 1 where the first round is cut. */
export interface WrittenRound {
  readonly start: number;
  readonly partials: number;
}

/**
 * The fewest partials after which a stretch of `length` partials, from partial 0 on, comes again in all it shows: whole
 * cycles where the file says how long they are, else at most half of it, so that there is a second time; all of it where
 * nothing comes again.
 *
 * @param cycle as the file's markers say
 */
export function writtenRound(
  lines: SoundLines,
  length: number,
  cycle?: WrittenRound,
): WrittenRound {
  const { start, partials: step } = cycle ?? { start: 0, partials: 1 };
  const from = Math.max(0, start);
  const isSilentBefore = [...lines.keys()].every((partial) => partial >= from);
  const most = Math.min(MAX_PATTERN, cycle ? length - from : length / 2);
  if (isSilentBefore)
    for (let partials = step; partials <= most; partials += step)
      if (comesAgain(lines, from, length, partials)) return { start, partials };
  return cycle ? writtenRound(lines, length) : { start: 0, partials: length };
}
