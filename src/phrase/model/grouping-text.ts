import type { Phrase, RootStep } from './phrase';
import { repeatLength } from './repeat-length';

/** A step as it is written in a grouping. @example stepText([{ limb: 'R', graces: ['L'] }, { limb: 'K', graces: [] }]) // => 'lR+K' */
export const stepText = (step: RootStep): string =>
  step.map(({ limb, graces }) => graces.join('').toLowerCase() + limb).join('+') || '-';

/**
 * The shortest grouping that, started over at least once, writes these steps of a cycle; all of them when there is
 * none.
 *
 * @example groupingText([[{ limb: 'R', graces: [] }], [], [{ limb: 'R', graces: [] }], []]) // => 'R -'
 */
export const groupingText = (steps: readonly RootStep[]): string => {
  const texts = steps.map(stepText);
  return texts.slice(0, shortest(texts)).join(' ');
};

function shortest(texts: readonly string[]): number {
  const length = repeatLength(texts);
  return 2 * length <= texts.length ? length : texts.length;
}

/** The steps of a whole cycle, the grouping started over until the cycle's end cuts it. */
export const cycleSteps = (grouping: readonly RootStep[], cycle: number): readonly RootStep[] =>
  Array.from({ length: cycle }, (_, i) => grouping[i % grouping.length]!);

/** A phrase with other steps in its cycle, which may be of another length; its layers stay. */
export function withSteps(phrase: Phrase, steps: readonly RootStep[]): Phrase {
  const texts = steps.map(stepText);
  const length = shortest(texts);
  const grouping = steps.slice(0, length);
  const text = texts.slice(0, length).join(' ');
  return { ...phrase, grouping, groupingText: text, cycle: steps.length };
}
