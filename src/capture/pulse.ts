import type { PlayedStroke } from './played-stroke';

/** An even pulse that the strokes keep to, slow drift allowed. */
export interface Pulse {
  readonly periodUs: number;
  /** Each stroke's place in periods from the first pulse, as a real number. */
  readonly places: readonly number[];
  /** Share of the strokes' weight in step with it, window by window, 0 to 1. */
  readonly strength: number;
}

/** Pulses looked for: from a third of a triplet at 300 bpm to a beat at 60. */
const SHORTEST_US = 60_000;
const LONGEST_US = 1_000_000;
/** Step from one period to the next, so small that a window's ends stay in step. */
const STEP = 1.003;
/** Windows so short that no player drifts out of step in one. Chosen, not measured. */
const WINDOW_US = 4_000_000;
/** Strokes used for the search at most; the fit uses them all. */
const MOST_SEARCHED = 1200;

/**
 * The period that keeps most strokes in step: the mean squared length of the phase vectors over short
 * windows (the periodogram of a point process, Bartlett, J. R. Stat. Soc. B 25, 1963), then refined by
 * least squares over the strokes matched to its pulses. Undefined with fewer than eight strokes.
 */
export function findPulse(strokes: readonly PlayedStroke[]): Pulse | undefined {
  if (strokes.length < 8) return undefined;
  const times = strokes.slice(0, MOST_SEARCHED).map(({ timeUs }) => timeUs);
  let best = { periodUs: 0, strength: -Infinity };
  for (let periodUs = SHORTEST_US; periodUs <= LONGEST_US; periodUs *= STEP) {
    const strength = inStep(times, periodUs);
    if (strength > best.strength) best = { periodUs, strength };
  }
  for (let shift = -4; shift <= 4; shift++) {
    const periodUs = best.periodUs * STEP ** (shift / 8);
    const strength = inStep(times, periodUs);
    if (strength > best.strength) best = { periodUs, strength };
  }
  const all = strokes.map(({ timeUs }) => timeUs);
  const places = follow(all, best.periodUs);
  return { periodUs: slopeOf(all, places), places, strength: best.strength };
}

/** Mean over windows of the unbiased squared phase coherence, by the strokes in them. */
function inStep(times: readonly number[], periodUs: number): number {
  let sum = 0;
  let weight = 0;
  let from = 0;
  while (from < times.length) {
    let x = 0;
    let y = 0;
    let n = 0;
    const end = times[from]! + WINDOW_US;
    while (from < times.length && times[from]! < end) {
      const angle = (2 * Math.PI * times[from]!) / periodUs;
      x += Math.cos(angle);
      y += Math.sin(angle);
      n++;
      from++;
    }
    if (n < 3) continue;
    sum += (x * x + y * y - n) / (n - 1);
    weight += n;
  }
  return weight === 0 ? 0 : sum / weight;
}

/** Strokes a line is fitted over, before and after. Chosen, not measured. */
const NEIGHBOURS = 40;
/** Strokes farther from a pulse than this share of a period say nothing about it. */
const MATCHED = 0.25;

/**
 * Each stroke's place in periods: its nearest pulse, counted along with a pulse that follows the player, plus
 * how far it is from the line through the matched strokes around it.
 */
function follow(times: readonly number[], periodUs: number): number[] {
  const pulses = countPulses(times, periodUs);
  return times.map((time, i) => {
    const from = Math.max(0, i - NEIGHBOURS);
    const to = Math.min(times.length, i + NEIGHBOURS + 1);
    const line = robustLine(times, pulses, from, to, periodUs);
    return line.at + (time - line.time) / line.periodUs;
  });
}

/** Pulse numbers of the strokes; the phase and the period creep after the player. */
function countPulses(times: readonly number[], periodUs: number): Int32Array {
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
    if (Math.abs(off) > period * MATCHED) return;
    at += off * 0.15;
    if (steps > 0) period += Math.max(-0.002, Math.min(0.002, (off * 0.01) / period)) * period;
    period = Math.max(periodUs * 0.94, Math.min(periodUs * 1.06, period));
  });
  return pulses;
}

/** A time in step with most of the first strokes. */
function startPhase(times: readonly number[], periodUs: number): number {
  const first = times.filter((time) => time < times[0]! + WINDOW_US);
  const angles = first.map((time) => (2 * Math.PI * (time - times[0]!)) / periodUs);
  const y = angles.reduce((sum, angle) => sum + Math.sin(angle), 0);
  const x = angles.reduce((sum, angle) => sum + Math.cos(angle), 0);
  return times[0]! + (Math.atan2(y, x) / (2 * Math.PI)) * periodUs;
}

interface Line {
  readonly time: number;
  readonly at: number;
  readonly periodUs: number;
}

/** Least squares of times over pulses from..to, twice: the second time without what is far off the first. */
function robustLine(
  times: readonly number[],
  pulses: Int32Array,
  from: number,
  to: number,
  periodUs: number,
): Line {
  let line: Line | undefined;
  for (let round = 0; round < 2; round++) {
    let n = 0;
    let meanTime = 0;
    let meanPulse = 0;
    const used = (i: number) =>
      line === undefined ||
      Math.abs((times[i]! - line.time) / line.periodUs + line.at - pulses[i]!) < MATCHED;
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

/** Microseconds a period over the whole take. */
function slopeOf(times: readonly number[], places: readonly number[]): number {
  const pulses = Int32Array.from(places, Math.round);
  const first = times[0]!;
  const last = times.at(-1)!;
  const rough = (last - first) / Math.max(1, places.at(-1)! - places[0]!);
  return robustLine(times, pulses, 0, times.length, rough).periodUs;
}
