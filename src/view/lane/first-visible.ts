import type { LaneCycle, LaneMark } from '../../live/lane-feed';
import { firstFrom } from '../../time/first-from';

const timeOf = ({ timeUs }: Pick<LaneMark, 'timeUs'>) => timeUs;
const endOf = ({ endUs }: Pick<LaneCycle, 'endUs'>) => endUs;

/**
 * Index of the first mark at or after `timeUs`; their number when there is none.
 *
 * @example firstMarkAtOrAfter([{ timeUs: 0 }, { timeUs: 10 }], 5) // => 1
 */
export const firstMarkAtOrAfter = (
  marks: readonly Pick<LaneMark, 'timeUs'>[],
  timeUs: number,
): number => firstFrom(marks, timeOf, timeUs);

/**
 * The first cycle that ends after `timeUs`; ends are whole microseconds.
 *
 * @example firstCycleEndingAfter([{ endUs: 10 }, { endUs: 20 }], 10) // => 1
 */
export const firstCycleEndingAfter = (
  cycles: readonly Pick<LaneCycle, 'endUs'>[],
  timeUs: number,
): number => firstFrom(cycles, endOf, Math.floor(timeUs) + 1);
