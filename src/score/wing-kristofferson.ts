import { successive } from './lag-one';

/**
 * Where the unevenness of steady strokes comes from: the inner clock that decides the intervals, or
 * the limb that carries them out. An interval is clock plus this stroke's delay minus the last one's,
 * I_j = C_j + M_j − M_j−1, so var(I) = s²_C + 2·s²_M, the lag-one covariance is −s²_M, and the
 * lag-one correlation lies between −1/2 and 0. Wing & Kristofferson 1973, Percept. Psychophys.
 * 14:5-12; bounds as stated by Doumas & Wing 2007, JEP:HPP 33:442-455.
 *
 * The model is one of playing without a click. With a click the player corrects towards it, which
 * shifts the covariance: strokes scattered independently about a fixed grid give a correlation of
 * −1/2 whatever clock is behind them. Use it on stretches where the click is silent.
 */
export interface ClockAndMotor {
  /** Standard deviation of the inner clock's intervals, in the intervals' unit. */
  readonly clock: number;
  /** Standard deviation of the delays of single strokes, in the intervals' unit. */
  readonly motor: number;
}

/** Fewer intervals than this say next to nothing about a covariance. Chosen, not measured. */
export const FEWEST_INTERVALS = 30;

/**
 * Undefined where the model is violated: neighbouring intervals that go together, or a motor part
 * that would make up more than all of the variance.
 *
 * @example clockAndMotor({ variance: 275, covariance: -25 }) // => { clock: 15, motor: 5 }
 */
export function clockAndMotor({
  variance,
  covariance,
}: {
  readonly variance: number;
  readonly covariance: number;
}): ClockAndMotor | undefined {
  const motorVariance = -covariance;
  if (!(motorVariance >= 0 && 2 * motorVariance <= variance)) return undefined;
  return { clock: Math.sqrt(variance - 2 * motorVariance), motor: Math.sqrt(motorVariance) };
}

/**
 * From successive intervals of one limb, or from their deviations from an even grid. Undefined for
 * fewer than FEWEST_INTERVALS of them and where the model is violated.
 *
 * @example wingKristofferson([500, 510, 495]) // => undefined
 */
export function wingKristofferson(intervals: readonly number[]): ClockAndMotor | undefined {
  if (intervals.length < FEWEST_INTERVALS) return undefined;
  const found = successive(intervals);
  return found && clockAndMotor(found);
}
