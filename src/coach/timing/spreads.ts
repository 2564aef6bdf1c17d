import { mean } from 'simple-statistics';
import { brownForsythe } from '../../score/statistics/brown-forsythe';
import { meanOfUnits } from '../../score/cycle-means';
import { robustSpread, spread } from '../../score/statistics/spread';
import { tTwoSided } from '../../score/statistics/student-t';
import { Z_95 } from '../../score/statistics/wilson';
import type { Cause } from '../evidence/causes';
import type { Evidence } from '../evidence/evidence';
import { FEWEST_UNITS, UNIT_NOTES, type Units } from '../evidence/units';

/** How far offsets scatter beside what causes explain, ms. */
export interface Spreads {
  /** Of all of them; undefined for too few. */
  readonly all: number | undefined;
  /** Whether the whole scatters so far that notes fall out of the tolerance. */
  readonly isWide: boolean;
  /** Notes of one cause that scatter clearly more than the rest. */
  readonly uneven:
    { readonly cause: Cause; readonly ms: number; readonly restMs: number } | undefined;
  /** From the first third to the last. */
  readonly growth: { readonly fromMs: number; readonly toMs: number } | undefined;
}

/** A group is told as uneven from so many times the rest's spread. Chosen, not measured. */
const TIMES_THE_REST = 1.5;
/** Least growth told. Chosen, not measured: with 256 strokes on either side 1.2 is told from 1 with a power of 80 %. */
const GROWTH = 1.3;
/** Least of strokes on either side: 64 tell 1.42 from 1 (two standard errors of ln s, 1/√(2(n − 1)) each). */
const GROWTH_STROKES = 64;
/** Strokes of a group in a unit for it to have a spread there. */
const LEAST_IN_UNIT = 3;
/** Of the error rate, what each of the two may use up. Chosen, not measured. */
const SHARE_OF_ERROR = 0.1;

/** @param residuals of each note in ms, NaN where none is told */
export function spreadsOf(evidence: Evidence, residuals: Float64Array): Spreads {
  const { toleranceMs, units } = evidence;
  const values = numbersAt(residuals, [...residuals.keys()]);
  const all = values.length < UNIT_NOTES ? undefined : spread(values);
  const robust = robustSpread(values) ?? 0;
  return {
    all,
    isWide:
      all !== undefined && units.count >= FEWEST_UNITS && isFar(Math.min(all, robust), toleranceMs),
    uneven: unevenOf(evidence, residuals),
    growth: growthOf(evidence, residuals),
  };
}

/** Whether more than one stroke in twenty falls out of the tolerance. */
const isFar = (ms: number, toleranceMs: number): boolean => Z_95 * ms > toleranceMs;

/** The group that spreads most beyond the rest: its spread over the rest's, unit by unit, as logarithms (paired t test). */
function unevenOf(evidence: Evidence, residuals: Float64Array): Spreads['uneven'] {
  const { classes, units, toleranceMs, errorRate } = evidence;
  const spreadsFar = (cause: Cause | undefined) =>
    cause !== undefined && isFar(spreadAt(residuals, cause.notes), toleranceMs);
  // Most takes have no such cause, and the looks cost more than all else about spread.
  if (!classes.some(({ causes, opposite }) => spreadsFar(causes[0]) || spreadsFar(opposite[0])))
    return undefined;
  const looks = classes.flatMap(({ group, rest, causes, opposite }) => {
    const others = unitLogs(residuals, units, rest);
    const ratios = unitLogs(residuals, units, group).flatMap((log, unit) => {
      const restLog = others[unit];
      return log !== undefined && restLog !== undefined ? [log - restLog] : [];
    });
    if (ratios.length < FEWEST_UNITS) return [];
    const ratio = meanOfUnits(ratios);
    if (ratio.mean >= 0) return [{ cause: causes[0]!, rest, ...ratio }];
    return opposite[0] ? [{ cause: opposite[0], rest: group, ...ratio, mean: -ratio.mean }] : [];
  });
  const level = (SHARE_OF_ERROR * errorRate) / Math.max(1, looks.length);
  let worst: { cause: Cause; ms: number; restMs: number; explained: number } | undefined;
  for (const { cause, rest, mean: log, error, df } of looks) {
    if (!(tTwoSided(log / error, df) < level)) continue;
    const ms = spreadAt(residuals, cause.notes);
    const restMs = spreadAt(residuals, rest);
    if (ms < TIMES_THE_REST * restMs || !isFar(ms, toleranceMs)) continue;
    const explained = cause.notes.length * Math.log(ms / restMs);
    if (!worst || explained > worst.explained) worst = { cause, ms, restMs, explained };
  }
  return worst && { cause: worst.cause, ms: worst.ms, restMs: worst.restMs };
}

/** Brown and Forsythe's test of the last third of the units against the first, and the same of the units' spreads. */
function growthOf({ units, errorRate }: Evidence, residuals: Float64Array): Spreads['growth'] {
  const third = Math.floor(units.count / 3);
  if (third < FEWEST_UNITS / 2) return undefined;
  const centred = centredByUnit(residuals, units);
  const part = (from: number, to: number) => centred.slice(from, to);
  const [first, last] = [part(0, third), part(units.count - third, units.count)];
  const [before, after] = [first.flat(), last.flat()];
  if (Math.min(before.length, after.length) < GROWTH_STROKES) return undefined;
  const [fromMs, toMs] = [spread(before)!, spread(after)!];
  if (toMs < GROWTH * fromMs) return undefined;
  const level = SHARE_OF_ERROR * errorRate;
  if (!(brownForsythe([before, after]).p < level)) return undefined;
  const [a, b] = [first, last].map((part) =>
    part.flatMap((unit) => {
      const ms = spread(unit);
      return unit.length >= LEAST_IN_UNIT && ms ? [Math.log(ms)] : [];
    }),
  );
  if (a!.length < 2 || b!.length < 2) return undefined;
  const [earlier, later] = [meanOfUnits(a!), meanOfUnits(b!)];
  const t = (later.mean - earlier.mean) / Math.hypot(earlier.error, later.error);
  return tTwoSided(t, earlier.df + later.df) < level ? { fromMs, toMs } : undefined;
}

function centredByUnit(values: Float64Array, units: Units): number[][] {
  const byUnit: number[][] = Array.from({ length: units.count }, () => []);
  values.forEach((value, at) => {
    if (!Number.isNaN(value)) byUnit[units.of[at]!]!.push(value);
  });
  return byUnit.map((unit) => {
    const middle = unit.length > 0 ? mean(unit) : 0;
    return unit.map((value) => value - middle);
  });
}

/**
 * Logarithm of the spread of some notes in each unit, without the bias of few of them (½ψ(k/2) − ½ln(k/2) for k degrees of
 * freedom, by its series); undefined where they are too few.
 */
function unitLogs(
  values: Float64Array,
  units: Units,
  notes: readonly number[],
): (number | undefined)[] {
  const count = new Int32Array(units.count);
  const sum = new Float64Array(units.count);
  const squares = new Float64Array(units.count);
  for (const at of notes) {
    if (Number.isNaN(values[at]!)) continue;
    count[units.of[at]!]!++;
    sum[units.of[at]!]! += values[at]!;
  }
  for (const at of notes) {
    if (Number.isNaN(values[at]!)) continue;
    const unit = units.of[at]!;
    squares[unit]! += (values[at]! - sum[unit]! / count[unit]!) ** 2;
  }
  return Array.from(squares, (square, unit) => {
    const degrees = count[unit]! - 1;
    if (count[unit]! < LEAST_IN_UNIT || square === 0) return undefined;
    return Math.log(square / degrees) / 2 + 1 / (2 * degrees) + 1 / (6 * degrees ** 2);
  });
}

/** How far some notes scatter, ms, and the logarithm of that in each unit that shows it. */
export const spreadOf = (values: Float64Array, units: Units, notes: readonly number[]) => ({
  ms: spreadAt(values, notes),
  logs: unitLogs(values, units, notes).filter((log) => log !== undefined),
});

const spreadAt = (values: Float64Array, notes: readonly number[]): number =>
  spread(numbersAt(values, notes)) ?? 0;

function numbersAt(values: Float64Array, notes: readonly number[]): number[] {
  const numbers: number[] = [];
  for (const at of notes) if (!Number.isNaN(values[at]!)) numbers.push(values[at]!);
  return numbers;
}
