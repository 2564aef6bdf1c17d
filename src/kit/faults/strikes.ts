import type { Stroke } from '../stroke';

/** From this velocity on a strike is hard enough to shake other pads. Chosen, not measured. */
export const HARD_FROM = 60;
/** What comes this soon after a strike of the same group is its own double trigger. Chosen, not measured. */
export const ONE_STRIKE_US = 60_000;

/**
 * The loudest of strokes that came together, in order of time.
 *
 * @example strikes([{ timeUs: 0, velocity: 90 }, { timeUs: 9000, velocity: 40 }]) // => [{ timeUs: 0, velocity: 90 }]
 */
export function strikes<S extends Pick<Stroke, 'timeUs' | 'velocity'>>(strokes: readonly S[]): S[] {
  const found: S[] = [];
  for (const stroke of [...strokes].sort((a, b) => a.timeUs - b.timeUs)) {
    const before = found.at(-1);
    if (!before || stroke.timeUs - before.timeUs > ONE_STRIKE_US) found.push(stroke);
    else if (stroke.velocity > before.velocity) found[found.length - 1] = stroke;
  }
  return found;
}
