import { voiceNumber } from '../../phrase/model/voice';
import type { PlayedStroke } from '../played-stroke';
import type { Pulse } from './pulse';

/** A way to count the pulses in beats. */
export interface Beat {
  /** Pulses a beat; 1/2 where there is one in two beats. */
  readonly pulses: number;
  /** Which pulse is a beat, 0 to pulses - 1. */
  readonly phase: number;
  /** How likely it is among the ways that are looked for, 0 to 1. */
  readonly likelihood: number;
}

const FREE_TEMPO_BPM = { least: 60, most: 200 };
/** Pulses to a beat, with how unusual they are, in nats. Common practice, no source. */
export const FREE_TEMPO_RARENESS = new Map([
  [1 / 3, 3],
  [1 / 2, 2],
  [1, 0.5],
  [2, 0],
  [3, 0.4],
  [4, 0],
  [5, 1.2],
  [6, 0.8],
  [7, 1.7],
  [8, 0.8],
  [12, 1.2],
]);
/**
 * Beats are felt best every 500 to 550 ms (van Noorden & Moelants, J. New Music Res. 28, 1999, abstract: that period, and 400
 * to 800 ms at half height). How many octaves wide is chosen, wider than that, since a tempo is not only felt.
 */
const FELT_BPM = 114;
const FELT_OCTAVES = 0.7;
/** Weights of the evidence, in nats, tried on simulated phrases and the takes in shared/takes; chosen, not measured. */
const REPEATS = 3;
const BASS_ON_BEAT = 2.5;
const WHOLE = 0.5;

/**
 * The ways to count pulses in 60 to 200 beats a minute, the likeliest first: near a tempo that is felt as a beat, with
 * the bass drum and the loud strokes on the beat, where the strokes come again after a beat, two and four.
 */
export function beatsOfPulse(strokes: readonly PlayedStroke[], pulse: Pulse): Beat[] {
  const at = Int32Array.from(pulse.places, Math.round);
  const judged: { pulses: number; phase: number; score: number }[] = [];
  for (const [pulses, rareness] of FREE_TEMPO_RARENESS) {
    const bpm = 60e6 / (pulse.periodUs * pulses);
    if (bpm < FREE_TEMPO_BPM.least || bpm > FREE_TEMPO_BPM.most) continue;
    const felt = -((Math.log2(bpm / FELT_BPM) / FELT_OCTAVES) ** 2) / 2;
    const { phase, share } = bestPhase(strokes, at, Math.max(1, pulses));
    const lags = [1, 2, 4].map((beats) => Math.max(1, Math.round(beats * pulses)));
    const repeats = lags.reduce((sum, lag) => sum + repeating(strokes, at, lag), 0) / lags.length;
    const beatsInCycle = (pulse.cyclePulses ?? NaN) / pulses;
    const whole = Number.isInteger(beatsInCycle) ? WHOLE : 0;
    const ahead = share - 1 / Math.max(1, pulses);
    judged.push({
      pulses,
      phase,
      score: felt + REPEATS * repeats + BASS_ON_BEAT * ahead + whole - rareness,
    });
  }
  const most = Math.max(...judged.map(({ score }) => score));
  const all = judged.reduce((sum, { score }) => sum + Math.exp(score - most), 0);
  return judged
    .map(({ pulses, phase, score }) => ({
      pulses,
      phase,
      likelihood: Math.exp(score - most) / all,
    }))
    .sort((a, b) => b.likelihood - a.likelihood);
}

/** Share of the strokes that the same voice answers `lag` pulses later. */
function repeating(strokes: readonly PlayedStroke[], at: Int32Array, lag: number): number {
  const struck = new Map<number, number>();
  const key = (pulse: number, i: number) => pulse * 64 + voiceNumber(strokes[i]!.voice);
  strokes.forEach(({ velocity }, i) => struck.set(key(at[i]!, i), velocity));
  let same = 0;
  let all = 0;
  const last = at.at(-1)! - lag;
  strokes.forEach(({ velocity }, i) => {
    if (at[i]! > last) return;
    const later = struck.get(key(at[i]! + lag, i));
    all += velocity;
    if (later !== undefined) same += Math.min(velocity, later);
  });
  return all === 0 ? 0 : same / all;
}

/** Where in the beat most weight lies; the bass drum counts twice, and the first stroke for a little. */
function bestPhase(strokes: readonly PlayedStroke[], at: Int32Array, pulses: number) {
  const weights = new Float64Array(pulses);
  let all = 0;
  strokes.forEach(({ velocity, voice }, i) => {
    const weight = (velocity / 64) ** 2 * (voice === 'bass drum' ? 2 : 1);
    weights[((at[i]! % pulses) + pulses) % pulses]! += weight;
    all += weight;
  });
  weights[((at[0]! % pulses) + pulses) % pulses]! += 0.03 * all;
  let phase = 0;
  weights.forEach((weight, k) => {
    if (weight > weights[phase]!) phase = k;
  });
  return { phase, share: weights[phase]! / all };
}
