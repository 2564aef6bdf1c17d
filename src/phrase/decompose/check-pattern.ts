import { bad, good, type Result } from '../../time/result';
import { limbName } from '../model/limb';
import { checkPhrase } from '../file/parse-phrase';
import type { PatternError, TargetPattern } from './target-pattern';

/** A pattern that a phrase could have, or what is wrong with it first. */
export function checkPattern(
  pattern: TargetPattern,
  title: string,
): Result<TargetPattern, PatternError> {
  const { meter, tempoBpm, subdivision, swing, cyclePartials, notes, pickup } = pattern;
  const head = checkPhrase({
    title,
    meter,
    tempoBpm,
    subdivision,
    grouping: 'R',
    ...(swing !== undefined && { swing }),
    layers: [{ name: 'Sticking' }],
  });
  if (!head.ok) return wrong(head.errors[0]!.message);
  if (notes.length === 0)
    return bad({
      code: 'PATTERN_EMPTY',
      message: 'The pattern has no notes, expected at least one; play or write one.',
    });
  if (!Number.isInteger(cyclePartials) || cyclePartials < 1)
    return wrong(
      `Found a pattern of ${cyclePartials} partials, expected a whole number from 1 on; change it.`,
    );
  const taken = new Set<string>();
  const places = [
    ...notes.map(({ partial, limb }) => ({ at: partial, limb })),
    ...pickup.map(({ partialsBefore, limb }) => ({ at: -partialsBefore, limb })),
  ];
  for (const { at, limb } of places) {
    if (!Number.isInteger(at) || at >= cyclePartials)
      return wrong(`Found a note at partial ${at}, expected 0 to ${cyclePartials - 1}; move it.`);
    if (taken.has(`${at} ${limb}`))
      return wrong(
        `The ${limbName(limb)} is asked for twice at partial ${at}, expected once; give one of them to another limb.`,
      );
    taken.add(`${at} ${limb}`);
  }
  return good(pattern);
}

const wrong = (message: string) => bad<PatternError>({ code: 'PATTERN_WRONG', message });
