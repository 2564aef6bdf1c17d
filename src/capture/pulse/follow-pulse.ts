import { clamp } from '../../time/whole';

/** Strokes of one take followed by an even pulse. */
export interface Followed {
  /** Microseconds a period over the whole take. */
  readonly periodUs: number;
  /** Each stroke's place in periods from the first pulse, as a real number. */
  readonly places: readonly number[];
}

/** Strokes a line is fitted over, before and after. Chosen, not measured. */
const NEIGHBOURS = 40;
/** Strokes farther from a pulse than this share of a period say nothing about it. */
const MATCHED = 0.25;

/**
 * Each stroke's place in periods: its nearest pulse, counted along with a pulse that follows the player, plus
 * how far it is from the line through the matched strokes around it. Those that are `ignored` (1) get a place, but the
 * pulse does not follow them.
 */
export function followPulse(
  times: readonly number[],
  periodUs: number,
  ignored: Uint8Array = new Uint8Array(times.length),
): Followed {
  const pulses = countPulses(times, periodUs, ignored);
  const places = times.map((time, i) => {
    const from = Math.max(0, i - NEIGHBOURS);
    const to = Math.min(times.length, i + NEIGHBOURS + 1);
    const line = robustLine({ times, pulses, ignored, from, to }, periodUs);
    return line.at + (time - line.time) / line.periodUs;
  });
  return { periodUs: slopeOf(times, places, ignored), places };
}

/** Pulse numbers of the strokes; the phase and the period creep after the player. */
function countPulses(times: readonly number[], periodUs: number, ignored: Uint8Array): Int32Array {
  let period = periodUs;
  let at = startPhase(times, periodUs);
  let pulse = 0;
  const pulses = new Int32Array(times.length);
  times.forEach((time, i) => {
    const steps = Math.round((time - at) / period);
    pulse += steps;
    at += steps * period;
    const off = time - at;
    pulses[i] = pulse;
    if (ignored[i] === 1 || Math.abs(off) > period * MATCHED) return;
    at += off * 0.15;
    period += clamp((off * 0.005) / period, -0.002, 0.002) * period;
    period = clamp(period, periodUs * 0.94, periodUs * 1.06);
  });
  return pulses;
}

/** The first strokes, so many microseconds of them, tell where the pulse begins. Chosen, not measured. */
const WINDOW_US = 4_000_000;

/** A time in step with most of the first strokes. */
function startPhase(times: readonly number[], periodUs: number): number {
  const first = times.filter((time) => time < times[0]! + WINDOW_US);
  const angles = first.map((time) => (2 * Math.PI * (time - times[0]!)) / periodUs);
  const y = angles.reduce((sum, angle) => sum + Math.sin(angle), 0);
  const x = angles.reduce((sum, angle) => sum + Math.cos(angle), 0);
  return times[0]! + (Math.atan2(y, x) / (2 * Math.PI)) * periodUs;
}

/** The strokes `from` up to but not including `to`, each with the number of its pulse. */
interface Stretch {
  readonly times: readonly number[];
  readonly pulses: Int32Array;
  /** 1 for a stroke the pulse does not follow. */
  readonly ignored: Uint8Array;
  readonly from: number;
  readonly to: number;
}

interface Line {
  readonly time: number;
  readonly at: number;
  readonly periodUs: number;
}

/** Least squares of times over pulses, twice: the second time without what is far off the first. */
function robustLine({ times, pulses, ignored, from, to }: Stretch, periodUs: number): Line {
  let line: Line | undefined;
  for (let round = 0; round < 2; round++) {
    let n = 0;
    let meanTime = 0;
    let meanPulse = 0;
    const used = (i: number) =>
      ignored[i] === 0 &&
      (line === undefined ||
        Math.abs((times[i]! - line.time) / line.periodUs + line.at - pulses[i]!) < MATCHED);
    for (let i = from; i < to; i++) {
      if (!used(i)) continue;
      n++;
      meanTime += (times[i]! - meanTime) / n;
      meanPulse += (pulses[i]! - meanPulse) / n;
    }
    let product = 0;
    let squares = 0;
    for (let i = from; i < to; i++) {
      if (!used(i)) continue;
      product += (times[i]! - meanTime) * (pulses[i]! - meanPulse);
      squares += (pulses[i]! - meanPulse) ** 2;
    }
    const fitted = squares > 0 ? product / squares : periodUs;
    const sound = fitted > periodUs * 0.9 && fitted < periodUs * 1.1;
    line = { time: meanTime, at: meanPulse, periodUs: sound ? fitted : periodUs };
  }
  return line!;
}

function slopeOf(times: readonly number[], places: readonly number[], ignored: Uint8Array): number {
  const pulses = Int32Array.from(places, Math.round);
  const first = times[0]!;
  const last = times.at(-1)!;
  const rough = (last - first) / Math.max(1, places.at(-1)! - places[0]!);
  return robustLine({ times, pulses, ignored, from: 0, to: times.length }, rough).periodUs;
}
