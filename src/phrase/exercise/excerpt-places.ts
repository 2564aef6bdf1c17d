import { lcm } from '../../time/whole';
import { layerStack } from '../layers/layer-stack';
import type { Phrase } from '../model/phrase';

/** Partials that are offered. Chosen, not measured: as many as can be taken out are more than anybody looks through. */
const MOST_PLACES = 256;

/** Where an excerpt of a layer can begin and end, in partials from bar 1 beat 1: both ends inside. */
export interface ExcerptPlaces {
  readonly from: number;
  readonly to: number;
  readonly subdivision: number;
}

/**
 * From the pickup of a layer (1-based) to where all of it has come round against the bar, at most MOST_PLACES partials on.
 *
 * @throws RangeError when the phrase has no such layer.
 * @example excerptPlaces(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, 1) // => { from: 0, to: 47, subdivision: 4 }
 */
export function excerptPlaces(phrase: Phrase, layer: number): ExcerptPlaces {
  const stack = layerStack(phrase, layer);
  const { barPartials, subdivision } = stack.grid;
  const pickup = stack.pattern(0)[0]?.partial ?? 0;
  const most = Math.max(barPartials, MOST_PLACES - (MOST_PLACES % barPartials));
  const partials = Math.min(roundPartials(phrase, layer), most);
  return { from: Math.min(0, pickup), to: partials - 1, subdivision };
}

/**
 * Partials after which a layer (1-based) has come round against the bar, pickup aside; Infinity when that is beyond
 * counting.
 *
 * @throws RangeError when the phrase has no such layer.
 * @example roundPartials(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, 1) // => 48
 */
export function roundPartials(phrase: Phrase, layer: number): number {
  const { period, grid } = layerStack(phrase, layer);
  const pattern = period * phrase.cycle;
  return Number.isSafeInteger(pattern) ? lcm(pattern, grid.barPartials) : Infinity;
}
