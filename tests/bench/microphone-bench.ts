import { microphoneRuns } from '../clock/latency/microphone/microphone-runs';
import { duration, p50, p99, type BenchRow } from './bench-row';

/**
 * Seeded runs over all simulated rooms, and what is asked of them: the known offset within 1 ms in
 * at least 95 of 100, inside the interval as often as that says, and hardly a run refused.
 */
export function checkMicrophone(runs: number, seed: number) {
  const found = microphoneRuns(runs, seed);
  const { measured, within1Ms, covered } = found;
  if (measured < 0.98 * runs) throw new Error(`only ${measured} of ${runs} runs measured`);
  if (within1Ms < 0.95 * runs) throw new Error(`only ${within1Ms} of ${runs} within 1 ms`);
  if (covered < 0.95 * measured) throw new Error(`only ${covered} of ${measured} covered`);
  return found;
}

/** The errors of the measurement in place of times. */
export function microphoneRow(runs: number, seed = 1): BenchRow {
  const { errorsMs, measured, within1Ms, covered } = checkMicrophone(runs, seed);
  return {
    name: `Offset by microphone, ${runs} rooms`,
    asserted: `${within1Ms} within 1 ms, ${covered} of ${measured} inside the interval`,
    p50: duration(p50(errorsMs)),
    tail: `p99 ${duration(p99(errorsMs))}`,
    aim: 'within 1 ms in 95 %',
    met: within1Ms >= 0.95 * runs,
    note: `Errors, not times: simulated recordings, seeds ${seed} to ${seed + runs - 1}, 32 strokes with 15 ms spread.`,
  };
}
