import type { TimedNote } from '../match/timed-note';
import type { RequiredLevels } from './level-verdict';

/**
 * Which levels each layer asks for, read off its notes: a layer that writes an accent asks for
 * accents. A layer without notes asks for nothing.
 *
 * @example requiredLevels([])(1) // => { accents: false, ghosts: false }
 */
export function requiredLevels(notes: readonly TimedNote[]): (layer: number) => RequiredLevels {
  const byLayer = new Map<number, { accents: boolean; ghosts: boolean }>();
  for (const { layer, note } of notes) {
    const asked = byLayer.get(layer) ?? { accents: false, ghosts: false };
    asked.accents ||= note.level === 'accent';
    asked.ghosts ||= note.level === 'ghost';
    byLayer.set(layer, asked);
  }
  return (layer) => byLayer.get(layer) ?? { accents: false, ghosts: false };
}
