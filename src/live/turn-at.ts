import { firstAtOrAfter, firstFrom } from '../time/first-from';
import type { LaneFeed } from './lane-feed';

/** The next turn is told this far ahead. Chosen, not measured: about a beat. */
const AHEAD_US = 500_000;

/**
 * Whether the cycle that a time is in, or is about to come to, is to be heard or answered; undefined before the first.
 *
 * @example turnAt({ cycles: [{ startUs: 0, endUs: 2000000 }, { startUs: 2000000, endUs: 4000000 }], noteCount: 1, noteTimeUs: Float64Array.of(2000000) }, 1000000) // => 'Listen'
 */
export function turnAt(
  {
    cycles,
    noteTimeUs,
    noteCount,
  }: Pick<LaneFeed, 'noteCount' | 'noteTimeUs'> & {
    readonly cycles: readonly { readonly startUs: number; readonly endUs: number }[];
  },
  nowUs: number,
): 'Listen' | 'Answer' | undefined {
  const atUs = nowUs + AHEAD_US;
  const at = firstFrom(cycles, ({ endUs }) => endUs, atUs + 1);
  const cycle = cycles[at];
  if (!cycle || cycle.startUs > atUs) return undefined;
  const note = firstAtOrAfter(noteTimeUs, noteCount, cycle.startUs);
  return note < noteCount && noteTimeUs[note]! < cycle.endUs ? 'Answer' : 'Listen';
}
