import { meterChanges, remarkAt, type FileRemark } from '../../phrase/decompose/file-remark';
import { beats, type Beats } from '../../time/beats';
import type { Meter } from '../../time/meter';
import type { ReadBar } from './read-bars';

/** A bar with the place of its first beat. */
export interface BarInTime {
  readonly bar: ReadBar;
  /** As errors name it: 0 for a pickup. */
  readonly number: number;
  /** Beats from bar 1 beat 1; negative for a pickup. */
  readonly from: Beats;
}

/** Bars with their first beats: one ahead that is short or not counted is a pickup, and another meter ends what is read. */
export function barsInTime(
  bars: readonly ReadBar[],
  meter: Meter,
  meterText: string,
): { readonly inTime: readonly BarInTime[]; readonly unread: readonly FileRemark[] } {
  const unread: FileRemark[] = [];
  const tell = (number: number, words: string) => unread.push(remarkAt(number, words));
  const due = meter.quartersPerBeat.mul(meter.beatsPerBar);
  const inTime: BarInTime[] = [];
  let number = hasPickup(bars, due) ? 0 : 1;
  for (const bar of bars) {
    if (bar.meter !== undefined && bar.meter !== meterText) {
      unread.push(meterChanges(number, bar.meter.slice(0, 20)));
      break;
    }
    const isPickup = number === 0;
    const isFull = bar.quarters.compare(due) === 0 || bar.quarters.compare(0) === 0;
    if (!isPickup && !isFull) tell(number, `the bar is not as long as ${meterText} says`);
    if (bar.isRepeatEnd && bar !== bars.at(-1))
      tell(number, 'a repeat ends here; its bars are read once');
    const from = isPickup
      ? bar.quarters.div(meter.quartersPerBeat).neg()
      : beats((number - 1) * meter.beatsPerBar);
    inTime.push({ bar: withinBar(bar, due), number, from });
    number++;
  }
  return { inTime, unread };
}

function hasPickup([first, ...others]: readonly ReadBar[], due: Beats): boolean {
  if (!first || others.length === 0) return false;
  const isShort = first.quarters.compare(due) < 0 && first.quarters.compare(0) > 0;
  return isShort || (first.isImplicit && first.quarters.compare(due) <= 0);
}

/** What stands beyond the bar line is in nobody's bar. */
const withinBar = (bar: ReadBar, due: Beats): ReadBar =>
  bar.quarters.compare(due) <= 0
    ? bar
    : { ...bar, notes: bar.notes.filter(({ at }) => at.compare(due) < 0) };
