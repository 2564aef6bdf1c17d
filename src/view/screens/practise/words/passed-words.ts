import type { Phrase } from '../../../../phrase/model/phrase';

/**
 * The headline of a layer (1-based) that was just passed, and the layer that follows by itself, if one does.
 *
 * @example passedWords({ layers: [{ name: 'Sticking' }, { name: 'Accents' }] }, 1) // => 'Passed: Sticking.'
 */
export function passedWords(
  { layers }: Pick<Phrase, 'layers'>,
  layer: number,
  follows?: number,
): string {
  const passed = `Passed: ${layers[layer - 1]!.name}.`;
  return follows === undefined ? passed : `${passed} Next: ${layers[follows - 1]!.name}.`;
}

/** A step up, of one in twenty. Chosen, not measured. @example fasterBpm(88) // => 92 */
export const fasterBpm = (bpm: number): number =>
  Math.max(Math.round(bpm) + 1, Math.round(bpm * 1.05));
