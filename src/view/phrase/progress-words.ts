import type { LayerProgress } from '../../take/progress';
import { bpmText } from '../figures/format';

/**
 * The best tempo that each layer was passed at, from the first layer on; empty where none was.
 *
 * @example progressWords([{ isPlayed: true, bestBpm: 92 }, { isPlayed: true, bestBpm: undefined }]) // => '92, –'
 */
export const progressWords = (layers: readonly Pick<LayerProgress, 'bestBpm'>[]): string =>
  layers.some(({ bestBpm }) => bestBpm !== undefined)
    ? layers.map(({ bestBpm }) => (bestBpm === undefined ? '–' : bpmText(bestBpm))).join(', ')
    : '';
