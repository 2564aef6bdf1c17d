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
 */
function partialText(meter: Meter, subdivision: number, partial: number): string {
  const inBar = remainder(partial, meter.beatsPerBar * subdivision);
  const beat = Math.floor(inBar / subdivision) + 1;
  if (inBar % subdivision === 0) return String(beat);
  const between = syllable(meter, subdivision, partial);
  return /\d/.test(between) ? `${beat}, partial ${between}` : `${beat} ${between}`;
}

/**
 * A partial, counted from 0 at bar 1 beat 1, with its bar.
 *
 * @example partialWords(parseMeter('4/4'), 4, 21) // => 'bar 2, 2 e'
 */
export function partialWords(meter: Meter, subdivision: number, partial: number): string {
  const bar = Math.floor(partial / (meter.beatsPerBar * subdivision)) + 1;
  return `${barWords(bar)}, ${partialText(meter, subdivision, partial)}`;
}

const barWords = (bar: number): string => (bar < 1 ? 'pickup' : `bar ${bar}`);

/**
 * Where an excerpt was taken from.
 *
 * @example excerptWords(parseMeter('4/4'), 4, { from: 5, to: 16 }) // => 'bar 1, 2 e to bar 2, 1'
 */
export function excerptWords(meter: Meter, subdivision: number, { from, to }: Excerpt): string {
  const barPartials = meter.beatsPerBar * subdivision;
  const barAt = (partial: number) => Math.floor(partial / barPartials) + 1;
  const first = barAt(from);
  const last = barAt(to);
  const isBars = remainder(from, barPartials) === 0 && remainder(to + 1, barPartials) === 0;
  if (isBars && first >= 1) return first === last ? barWords(first) : `bars ${first} to ${last}`;
  const start = partialWords(meter, subdivision, from);
  if (from === to) return start;
  const end =
    first === last ? partialText(meter, subdivision, to) : partialWords(meter, subdivision, to);
  return `${start} to ${end}`;
}
