import type { LayerShape } from '../phrase/layers/layer-shape';
import { swingText } from '../phrase/model/swing';
import { countOf } from '../words/words';

/** The marker at the first stroke of a pickup. */
export const PICKUP = 'Pickup';

/** The marker at the start of a cycle (1-based). @example cycleMark(3) // => 'Cycle 3' */
export const cycleMark = (cycle: number): string => `Cycle ${cycle}`;

/** How the beat is divided from here on, as a text. @example gridText({ subdivision: 4, swing: undefined }) // => '4 partials a beat' */
export const gridText = ({
  subdivision,
  swing,
}: Pick<LayerShape, 'subdivision' | 'swing'>): string =>
  `${countOf(subdivision, 'partial')} a beat${swing ? `, swing ${swingText(swing)}` : ''}`;

/** The cycle that a marker of this program starts; undefined where it is another. @example cycleOfMark('Cycle 12') // => 12 */
export function cycleOfMark(text: string): number | undefined {
  const [, cycle] = /^Cycle ([1-9]\d{0,5})$/.exec(text) ?? [];
  return cycle === undefined ? undefined : Number(cycle);
}
