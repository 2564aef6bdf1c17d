import type { Meter } from '../../time/meter';
import { remainder } from '../../time/whole';

/**
 * The counting syllable of a partial, counted from 0 at a bar line: the beat's number on the beat, then
 * `&`; `trip` `let` (`&` `a` in compound meters); `e` `&` `a`; the partial's own number in other
 * subdivisions. Common practice, no source.
 *
 * @example syllable(parseMeter('4/4'), 4, 7) // => 'a'
 */
export function syllable(meter: Meter, subdivision: number, partial: number): string {
  const inBar = remainder(partial, meter.beatsPerBar * subdivision);
  const inBeat = inBar % subdivision;
  if (inBeat === 0) return String(Math.floor(inBar / subdivision) + 1);
  return between(meter, subdivision)?.[inBeat - 1] ?? String(inBeat + 1);
}

function between(meter: Meter, subdivision: number): readonly string[] | undefined {
  if (subdivision === 2) return ['&'];
  if (subdivision === 3) return meter.compound ? ['&', 'a'] : ['trip', 'let'];
  return subdivision === 4 ? ['e', '&', 'a'] : undefined;
}
