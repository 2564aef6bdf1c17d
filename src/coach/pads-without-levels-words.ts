import type { PadWithoutLevels } from '../score/pads-without-levels';
import { capital, countOf, list } from '../words/words';

/**
 * On which pads no level is judged and why, in one sentence; none where there are no such pads.
 *
 * @param nameOf what the kit calls a pad (MIDI note number)
 * @example padsWithoutLevelsWords([{ pad: 38, velocity: 100, notes: 24, still: true }], () => 'snare') // => ['Snare sends one velocity (100): the level of 24 notes there is not judged.']
 */
export function padsWithoutLevelsWords(
  pads: readonly PadWithoutLevels[],
  nameOf: (pad: number) => string,
): string[] {
  const [first] = pads;
  if (!first) return [];
  const names = capital(list(pads.map(({ pad }) => nameOf(pad))));
  const sends = pads.length === 1 ? 'sends' : 'send';
  const verb = pads.every(({ still }) => still) ? sends : 'at first sent';
  const alike = pads.every(({ velocity }) => velocity === first.velocity);
  const velocity = alike ? `one velocity (${first.velocity})` : 'one velocity each';
  const notes = countOf(
    pads.reduce((sum, one) => sum + one.notes, 0),
    'note',
  );
  return [`${names} ${verb} ${velocity}: the level of ${notes} there is not judged.`];
}
