import { syllable } from '../../phrase/model/syllable';
import type { Meter } from '../../time/meter';
import type { Phrase } from '../../phrase/model/phrase';
import type { Realignment } from '../../phrase/layers/realignment';
import { beats, mixedNumber } from '../../time/beats';
import { remainder } from '../../time/whole';
import type { Across, AcrossPartial } from '../../notation/across-bar';
import { countOf } from '../../words/words';

/** A bar's name with the cycles that start in it, each named as its place in the bar is counted; below 1 the pickup. */
export function barWords(bar: number, partials: readonly AcrossPartial[], across: Across): string {
  if (bar < 1) return `${aheadWords(1 - bar)} the pickup: ${soundingWords(partials, across)}`;
  const starts = partials.filter(({ cycle, position }) => cycle > 0 && position === 1);
  if (starts.length === 0) return `Bar ${bar}: no cycle starts`;
  const on = starts.map((partial) => placeWord(partial, across));
  const first = starts[0]!.cycle;
  return starts.length === 1
    ? `Bar ${bar}: cycle ${first} starts on ${on[0]}`
    : `Bar ${bar}: cycles ${first} ${starts.length === 2 ? 'and' : 'to'} ${starts.at(-1)!.cycle} start on ${on.join(', ')}`;
}

const aheadWords = (bars: number): string =>
  bars === 1 ? 'Before bar 1,' : `${bars} bars before bar 1,`;

/** What sounds of a pickup in a bar, stroke by stroke: "R on 4&, L on 4a". */
export const soundingWords = (
  partials: readonly AcrossPartial[],
  across: Pick<Across, 'barPartials' | 'subdivision'>,
): string =>
  partials
    .filter(({ strokes }) => strokes.length > 0)
    .map(
      (partial) =>
        `${partial.strokes.map(({ sticking }) => sticking).join('+')} on ${placeWord(partial, across)}`,
    )
    .join(', ');

/** A partial's place in its bar as it is counted: "3", "1e", "2 trip", and where nothing is counted "2 2/5". */
function placeWord(
  { partial, count, onBeat }: Pick<AcrossPartial, 'partial' | 'count' | 'onBeat'>,
  { barPartials, subdivision }: Pick<Across, 'barPartials' | 'subdivision'>,
): string {
  const inBar = remainder(partial, barPartials);
  const isCounted = /\D/.test(count);
  if (onBeat || !isCounted) return mixedNumber(beats(inBar + subdivision, subdivision));
  const beat = Math.floor(inBar / subdivision) + 1;
  return count.length === 1 ? `${beat}${count}` : `${beat} ${count}`;
}

/**
 * How a partial from bar 1 beat 1, negative before it, is counted in its bar.
 *
 * @example countedPlace(parseMeter('4/4'), 4, -2) // => '4&'
 */
export const countedPlace = (meter: Meter, subdivision: number, partial: number): string =>
  placeWord(
    {
      partial,
      count: syllable(meter, subdivision, partial),
      onBeat: remainder(partial, subdivision) === 0,
    },
    { barPartials: meter.beatsPerBar * subdivision, subdivision },
  );

/** When cycle start and bar line meet again, in one sentence. */
export function realignmentWords({ cycles, bars, starts }: Realignment): string {
  const after = countOf(bars, 'bar');
  if (cycles > 1)
    return `Cycle start and bar line meet again after ${cycles} cycles, which is ${after}.`;
  const every = bars === 1 ? '' : `, every ${after}`;
  return `Every cycle starts on beat ${mixedNumber(starts[0]!.beat)} of a bar${every}.`;
}

/** A sentence on how both are counted. */
export const countingWords = (phrase: Phrase): string =>
  `Above, each bar is counted in ${phrase.meterText}; below, the cycle of ${phrase.cycle}. A heavy line with a number is the start of a cycle.`;
