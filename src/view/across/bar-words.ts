import type { Phrase } from '../../phrase/phrase';
import type { Realignment } from '../../phrase/realignment';
import { beats, mixedNumber } from '../../time/beats';
import { remainder } from '../../time/whole';
import type { Across, AcrossPartial } from './across-bar';

/** A bar's name with the cycles that start in it, each named by its beat. */
export function barWords(bar: number, partials: readonly AcrossPartial[], across: Across): string {
  const starts = partials.filter(({ cycle, position }) => cycle > 0 && position === 1);
  if (starts.length === 0) return `Bar ${bar}: no cycle starts`;
  const on = starts.map(({ partial }) => {
    const inBar = remainder(partial, across.barPartials);
    return mixedNumber(beats(inBar + across.subdivision, across.subdivision));
  });
  const first = starts[0]!.cycle;
  return starts.length === 1
    ? `Bar ${bar}: cycle ${first} starts on beat ${on[0]}`
    : `Bar ${bar}: cycles ${first} ${starts.length === 2 ? 'and' : 'to'} ${starts.at(-1)!.cycle} start on beats ${on.join(', ')}`;
}

/** When cycle start and bar line meet again, in one sentence. */
export function realignmentWords({ cycles, bars, starts }: Realignment): string {
  const after = `${bars} ${bars === 1 ? 'bar' : 'bars'}`;
  if (cycles > 1)
    return `Cycle start and bar line meet again after ${cycles} cycles, which is ${after}.`;
  const every = bars === 1 ? '' : `, every ${after}`;
  return `Every cycle starts on beat ${mixedNumber(starts[0]!.beat)} of a bar${every}.`;
}

/** A sentence on how both are counted. */
export const countingWords = (phrase: Phrase): string =>
  `Above, each bar is counted in ${phrase.meterText}; below, the cycle of ${phrase.cycle}. A heavy line with a number is the start of a cycle.`;
