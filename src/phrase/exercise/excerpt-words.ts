import type { Meter } from '../../time/meter';
import { remainder } from '../../time/whole';
import { syllable } from '../model/syllable';

/** A stretch of a layer in partials from bar 1 beat 1, both ends inside; a pickup lies below 0. */
export interface Excerpt {
  readonly from: number;
  readonly to: number;
}

/**
 * A partial, counted from 0 at bar 1 beat 1, as it is counted aloud. In subdivisions that have no syllables it is the
 * partial of the beat.
 *
 * @example partialText(parseMeter('4/4'), 4, 7) // => '2 a'
 */
export function partialText(meter: Meter, subdivision: number, partial: number): string {
  const inBar = remainder(partial, meter.beatsPerBar * subdivision);
  const beat = Math.floor(inBar / subdivision) + 1;
  if (inBar % subdivision === 0) return String(beat);
  const between = syllable(meter, subdivision, partial);
  return /\d/.test(between) ? `${beat}, partial ${between}` : `${beat} ${between}`;
}

/**
 * Where an excerpt was taken from.
 *
 * @example excerptWords(parseMeter('4/4'), 4, { from: 5, to: 16 }) // => 'bar 1, 2 e to bar 2, 1'
 */
export function excerptWords(meter: Meter, subdivision: number, { from, to }: Excerpt): string {
  const barPartials = meter.beatsPerBar * subdivision;
  const barAt = (partial: number) => Math.floor(partial / barPartials) + 1;
  const barWords = (bar: number) => (bar < 1 ? 'pickup' : `bar ${bar}`);
  const first = barAt(from);
  const last = barAt(to);
  const isBars = remainder(from, barPartials) === 0 && remainder(to + 1, barPartials) === 0;
  if (isBars && first >= 1) return first === last ? barWords(first) : `bars ${first} to ${last}`;
  const start = `${barWords(first)}, ${partialText(meter, subdivision, from)}`;
  const end = partialText(meter, subdivision, to);
  if (from === to) return start;
  return first === last ? `${start} to ${end}` : `${start} to ${barWords(last)}, ${end}`;
}
