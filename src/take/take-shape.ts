import type { Passage } from '../phrase/model/passage';
import { DAY_US, TAKE_BPM, TAKE_REACH_MS } from './take-file';

/** What is counted with when a take is judged, beside the times of its messages. */
export interface TakeNumbers {
  readonly passages: readonly Passage[];
  readonly tempos: readonly { readonly bpm: number }[];
  readonly countInBars: number;
  readonly deviceOffsetMs?: number | undefined;
  readonly toleranceMs?: number | undefined;
  readonly reachMs?: number | undefined;
}

/**
 * Whether a take's numbers can be counted with: one that was damaged where it was kept may have others.
 *
 * @param timesUs of its messages, from bar 1 beat 1: a day away at most
 */
export function hasTakeShape(take: TakeNumbers, timesUs: Iterable<number>): boolean {
  const { passages, tempos, countInBars } = take;
  const { deviceOffsetMs = 0, toleranceMs = 0, reachMs = TAKE_REACH_MS.most } = take;
  for (const timeUs of timesUs)
    if (!isWithin(timeUs, { least: -DAY_US, most: DAY_US })) return false;
  return (
    passages.length > 0 &&
    passages.every(isPassage) &&
    tempos.length > 0 &&
    tempos.every(({ bpm }) => isWithin(bpm, TAKE_BPM)) &&
    isWhole(countInBars + 1) &&
    Number.isFinite(deviceOffsetMs) &&
    isWithin(toleranceMs, { least: 0, most: Number.MAX_VALUE }) &&
    isWithin(reachMs, TAKE_REACH_MS)
  );
}

const isPassage = ({ fromBar, layer, latePartials = 0, countInBars = 0 }: Passage): boolean =>
  isWhole(fromBar) &&
  isWhole(layer) &&
  (isWhole(Math.abs(latePartials)) || latePartials === 0) &&
  isWhole(countInBars + 1);
const isWithin = (number: number, { least, most }: { least: number; most: number }): boolean =>
  number >= least && number <= most;
const isWhole = (number: number): boolean =>
  Number.isInteger(number) && isWithin(number, { least: 1, most: 1e6 });
