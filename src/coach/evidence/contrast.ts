import { meanOfUnits, type MeanOfUnits } from '../../score/cycle-means';
import type { Units } from './units';

/** What some notes have more of than the others: mean over units of the group's mean less the rest's. */
export interface Contrast extends MeanOfUnits {
  /** Share of the units whose difference has the same sign. */
  readonly agreement: number;
  /** How many notes of the group, and of the rest, have a value. */
  readonly notes: number;
  readonly others: number;
}

/** Share of the units in which an offset has the same sign at least. Chosen, not measured. */
export const AGREEMENT = 0.75;

/** Share of some values, one a unit, on the side that their mean is on. */
export const agreementOf = (values: readonly number[], mean: number): number =>
  values.filter((one) => one * mean > 0).length / values.length;

/**
 * A group against the rest, unit by unit, so that what a whole unit has in common cancels. Undefined for fewer than two
 * units that have both.
 *
 * @param values one a note, NaN where there is none
 * @param group indices of notes, ascending
 * @param rest the same of those that it is compared with
 */
export function contrastOf(
  values: Float64Array,
  units: Units,
  group: readonly number[],
  rest: readonly number[],
): Contrast | undefined {
  const own = unitMeans(values, units, group);
  const other = unitMeans(values, units, rest);
  const differences: number[] = [];
  for (let unit = 0; unit < units.count; unit++)
    if (own.count[unit]! > 0 && other.count[unit]! > 0)
      differences.push(own.mean[unit]! - other.mean[unit]!);
  if (differences.length < 2) return undefined;
  const found = meanOfUnits(differences);
  const togetherness = withNext(differences, found.mean);
  return {
    ...found,
    error: found.error * Math.sqrt((1 + togetherness) / (1 - togetherness)),
    agreement: agreementOf(differences, found.mean),
    notes: own.notes,
    others: other.notes,
  };
}

/**
 * The mean of some notes (indices) in each unit, NaN where none has a value, with how many have there and in all.
 */
export function unitMeans(values: Float64Array, units: Units, group: readonly number[]) {
  const sum = new Float64Array(units.count);
  const count = new Int32Array(units.count);
  let notes = 0;
  for (const at of group) {
    const value = values[at]!;
    if (Number.isNaN(value)) continue;
    const unit = units.of[at]!;
    sum[unit]! += value;
    count[unit]!++;
    notes++;
  }
  for (let unit = 0; unit < units.count; unit++) sum[unit]! /= count[unit]!;
  return { mean: sum, count, notes };
}

/** Part of the correlation of neighbouring units that is believed: its error with 16 of them is 0.25. Chosen by counting claims, not measured. */
const BELIEVED = 0.25;

/**
 * How far neighbouring units go together, 0 to BELIEVED: a voice with few strokes carries its offset from one unit to the
 * next, and the mean's error grows by √((1 + r)/(1 − r)) for a process of first order.
 */
function withNext(values: readonly number[], middle: number): number {
  let together = 0;
  let all = 0;
  values.forEach((value, i) => {
    all += (value - middle) ** 2;
    if (i > 0) together += (value - middle) * (values[i - 1]! - middle);
  });
  return all > 0 ? BELIEVED * Math.max(0, together / all) : 0;
}
