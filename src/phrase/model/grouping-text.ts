import type { RootStep } from './phrase';
import type { PhraseDraft } from './phrase-draft';
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
export function groupingText(steps: readonly RootStep[]): string {
  const texts = steps.map(stepText);
  const length = repeatLength(texts);
  return texts.slice(0, 2 * length <= texts.length ? length : texts.length).join(' ');
}

/** The steps of a whole cycle, the grouping started over until the cycle's end cuts it. */
export const cycleSteps = (grouping: readonly RootStep[], cycle: number): readonly RootStep[] =>
  Array.from({ length: cycle }, (_, i) => grouping[i % grouping.length]!);

/** A draft with other steps in its cycle, which may be of another length; its layers stay. */
export const withSteps = (draft: PhraseDraft, steps: readonly RootStep[]): PhraseDraft => ({
  ...draft,
  grouping: groupingText(steps),
  cycle: steps.length,
});
