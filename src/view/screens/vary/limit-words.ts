import type { Loosened } from '../../../phrase/vary/proposals';
import { LIMBS } from '../../../phrase/model/limb';
import type { Limits } from '../../../practice/vary/proposing.svelte';
import { bpmText, figureText } from '../../figures/format';
import { countOf, plural } from '../../../words/words';

/** What to loosen when nothing was found, as a sentence. */
export function loosenWords({ limit, found, figures }: Loosened): string {
  const [least, most] = figures;
  switch (limit) {
    case 'highestDifficulty':
      return `Without the limit on difficulty there would be ${countOf(found, 'variation')}, the easiest at ${figureText(least, 1)}.`;
    case 'distance':
      return `Without the limits on distance there would be ${countOf(found, 'variation')}, ${figureText(least, 2)} to ${figureText(most, 2)} away.`;
    case 'voices':
      return `With all voices allowed there would be ${countOf(found, 'variation')}.`;
    case 'limbs':
      return `With all limbs allowed there would be ${countOf(found, 'variation')}.`;
    case 'bpm':
      return `At ${bpmText(least!)} bpm there would be ${countOf(found, 'variation')}.`;
  }
}

/** The limits that are set, of so many voices; empty where there are none. */
export function limitsWords(
  { limbs, voices, highestDifficulty, leastDistance, mostDistance }: Limits,
  allVoices: number,
): string {
  const set = [
    limbs.length < LIMBS.length && `${limbs.length} of ${LIMBS.length} limbs`,
    voices.length < allVoices && `${voices.length} of ${allVoices} voices`,
    highestDifficulty !== undefined && `difficulty up to ${highestDifficulty}`,
    leastDistance !== undefined && `at least ${leastDistance} away`,
    mostDistance !== undefined && `at most ${mostDistance} away`,
  ];
  return set.filter((part) => part !== false).join(', ');
}

/** What was drawn from a seed, and what it is to be held against. */
export const drawnWords = (
  found: number,
  seed: number,
  bpm: number,
  original: { readonly strokes: number; readonly difficulty: number },
): string =>
  `${found === 0 ? 'No' : found} ${plural(found, 'variation')} from seed ${seed}, playable at ${bpmText(bpm)} bpm. The original has ${original.strokes} strokes in a cycle and a difficulty of ${figureText(original.difficulty)}.`;
