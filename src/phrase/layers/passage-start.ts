import { beats, type Beats } from '../../time/beats';
import { gridAt } from '../model/grid';
import type { Passage } from '../model/passage';
import type { Phrase } from '../model/phrase';

/**
 * Where a passage takes over from the one before, in exact beats from bar 1 beat 1: at its bar line, where its count-in
 * begins, or in mid-bar where the target waited. Its pickup comes ahead of it.
 *
 * @throws RangeError when the phrase has no such layer.
 * @example passageStart(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, { fromBar: 2, layer: 1, latePartials: 3 }).toFraction() // => '19/4'
 */
export function passageStart(
  phrase: Phrase,
  { fromBar, layer, latePartials, countInBars = 0 }: Passage,
): Beats {
  const barLine = (bar: number) => beats((bar - 1) * phrase.meter.beatsPerBar);
  if (latePartials === undefined) return barLine(fromBar - countInBars);
  const { displace, subdivision } = gridAt(phrase, layer);
  return barLine(fromBar).add(beats(displace + latePartials, subdivision));
}
