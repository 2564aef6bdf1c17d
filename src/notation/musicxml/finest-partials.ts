import { MAX_SUBDIVISION } from '../../phrase/model/phrase-file';
import type { Beats } from '../../time/beats';

/**
 * Partials to a beat that hold the onsets of most notes, the fewest that do; those that are given where they hold all.
 *
 * @example finestPartials([beats(1, 2), beats(2, 3)], undefined) // => 6
 */
export function finestPartials(onsets: readonly Beats[], given: number | undefined): number {
  const counts = new Map<number, number>();
  for (const { d } of onsets) counts.set(Number(d), (counts.get(Number(d)) ?? 0) + 1);
  const held = (parts: number) =>
    [...counts].reduce((sum, [d, count]) => sum + (parts % d === 0 ? count : 0), 0);
  if (given !== undefined && held(given) === onsets.length) return given;
  let best = 1;
  for (let parts = 2; parts <= MAX_SUBDIVISION; parts++) if (held(parts) > held(best)) best = parts;
  return best;
}
