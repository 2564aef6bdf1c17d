import { isTimed } from './figures';
import type { JudgedNote } from './judged-note';

/**
 * The longest unbroken run of one limb's strokes, as how much longer than written each interval was,
 * ms: what `lagOne` and `wingKristofferson` are fed with. A missed note or a wrong voice ends a run.
 *
 * @param notes one limb's notes in time order.
 * @example longestRunMs([]) // => []
 */
export function longestRunMs(
  notes: readonly Pick<JudgedNote, 'verdict' | 'offsetUs'>[],
): readonly number[] {
  let longest: number[] = [];
  let run: number[] = [];
  let beforeUs: number | undefined;
  for (const note of notes) {
    const offsetUs = isTimed(note) ? note.offsetUs : undefined;
    if (offsetUs === undefined) run = [];
    else if (beforeUs !== undefined) run.push((offsetUs - beforeUs) / 1000);
    if (run.length > longest.length) longest = run;
    beforeUs = offsetUs;
  }
  return longest;
}
