import { cumulativeStdNormalProbability, mean, sampleStandardDeviation } from 'simple-statistics';
import { chance } from '../../../src/time/chance';
import type { Fault, Variant } from './faults';
import type { Scatter } from './player';
import { scatterMs } from './scatter';

/** Two-sided p < .0005: one false finding in 50 takes over 40 groups. */
const Z = 3.481;
/** Enough to know a standard error to 6 %. */
const TAKES = 150;

/**
 * Share of the takes in which a fault of time is seen by the plainest test at that level, which knows the notes and the
 * true error: their mean against that of the others. Nobody names much more of them without more false alarms.
 * Undefined for faults that are no shift of some notes.
 */
export function seenAtBest(
  { variants }: Fault,
  scatter: Scatter,
  nextSeed: () => number,
): number | undefined {
  const shares = variants.map((one) => seen(one, scatter, nextSeed));
  return shares.some((share) => share === undefined) ? undefined : mean(shares as number[]);
}

function seen(
  { piece, bars, notes, shiftMs }: Variant,
  { noise, sdMs }: Scatter,
  nextSeed: () => number,
): number | undefined {
  if (shiftMs === undefined) return undefined;
  const due = piece.notes(bars);
  const contrasts = Array.from({ length: TAKES }, () => {
    const offsets = scatterMs(due, noise, sdMs, chance(nextSeed()).normal);
    const meanOf = (isTouched: boolean) =>
      mean(offsets.filter((_, i) => notes.has(due[i]!) === isTouched));
    return meanOf(true) - meanOf(false);
  });
  const errors = Math.abs(shiftMs) / sampleStandardDeviation(contrasts);
  return cumulativeStdNormalProbability(errors - Z);
}
