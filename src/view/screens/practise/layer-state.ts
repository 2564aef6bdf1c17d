import type { LayerProgress } from '../../../take/progress';
import { bpmText } from '../../figures/format';

/** Where a layer stands, in the words of its tab. */
export interface LayerState {
  readonly isNow: boolean;
  readonly isPassed: boolean;
  readonly words: string;
}

/**
 * How far a layer has come; what is played now is told before what has been.
 *
 * @example layerState({ isPlayed: true, bestBpm: 88 }, false).words // => 'passed at 88'
 */
export function layerState(
  { isPlayed, bestBpm }: Omit<LayerProgress, 'looks'>,
  isNow: boolean,
): LayerState {
  const passed = bestBpm === undefined ? undefined : `passed at ${bpmText(bestBpm)}`;
  const before = passed ?? (isPlayed ? 'played' : 'not yet played');
  return {
    isNow,
    isPassed: bestBpm !== undefined,
    words: isNow ? ['now', ...(passed === undefined ? [] : [passed])].join(', ') : before,
  };
}
