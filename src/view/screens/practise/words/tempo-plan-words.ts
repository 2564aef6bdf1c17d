import type { PlanState, TempoPlan } from '../../../../coach/tempo-plan';
import type { SilentBars } from '../../../../time/silent-bars';
import { countInWords, countOf } from '../../../../words/words';
import { bpmText } from '../../../figures/format';

/**
 * How far a plan has come, and its cycles at this tempo.
 *
 * @example planProgressWords({ tempi: [80, 84, 88], cycles: 5, backAfter: 1 }, { step: 1, cycles: 3, clean: 2, fails: 0, reason: { kind: 'on' } }, 2) // => 'Step 2 of 3, goal 88. Of five cycles: 2 of 3 passed.'
 */
export function planProgressWords(
  { tempi, cycles }: TempoPlan,
  { step, cycles: played, clean }: PlanState,
  passesToGoal: number,
): string {
  const place = `Step ${step + 1} of ${tempi.length}, goal ${bpmText(tempi.at(-1)!)}.`;
  if (passesToGoal === 0) return place;
  const seen = played === 0 ? 'none played yet' : `${clean} of ${played} passed`;
  return `${place} Of ${countInWords(cycles, 'cycle')}: ${seen}.`;
}

/** What is said while a tempo is played that is none of the plan's. */
export const waitsWords = (bpm: number): string =>
  `The plan waits: ${bpmText(bpm)} is none of its tempi.`;

/**
 * The tempi of a plan in one line; of many the first three and the last.
 *
 * @example tempiWords([80, 84, 88, 92, 96, 100]) // => '80, 84, 88 … 100: six tempi'
 */
export function tempiWords(tempi: readonly number[]): string {
  const texts = tempi.map(bpmText);
  const shown =
    texts.length > 5 ? `${texts.slice(0, 3).join(', ')} … ${texts.at(-1)!}` : texts.join(', ');
  return `${shown}: ${countInWords(tempi.length, 'tempo').replace('tempos', 'tempi')}`;
}

/**
 * Which bars have no click.
 *
 * @example silentBarsWords({ sounding: 2, silent: 2, growBy: 1, most: 8 }) // => 'Click for 2 bars, then none for 2, 1 more each time up to 8.'
 */
export function silentBarsWords({ sounding, silent, growBy, most }: SilentBars): string {
  const grows = growBy > 0 && most > silent ? `, ${growBy} more each time up to ${most}` : '';
  return `Click for ${countOf(sounding, 'bar')}, then none for ${silent}${grows}.`;
}
