import { voiceNumber } from '../phrase/voice';
import type { PlayedStroke } from './played-stroke';
import type { Pulse } from './pulse';

export interface FoundBeat {
  /** Pulses a beat. */
  readonly pulses: number;
  /** Which pulse is a beat, 0 to pulses - 1. */
  readonly phase: number;
  /** How far ahead of the next beat length, 0 to 1. */
  readonly confidence: number;
}

export const TEMPO_BPM = { least: 60, most: 200 };
/** Pulses to a beat, with how unusual they are, in the units of the score. Common practice, no source. */
const RARENESS = new Map([
  [1, 0.3],
  [2, 0],
  [3, 0.12],
  [4, 0],
  [5, 0.6],
  [6, 0.15],
  [7, 0.7],
  [8, 0.15],
  [12, 0.3],
]);
/** Beats are felt best near this tempo (Parncutt, Music Perception 11, 1994: about 100 a minute), so many octaves wide. */
const FELT_BPM = 105;
const FELT_OCTAVES = 0.7;
/** Weights of the score, tried on the takes in shared/takes and on simulated ones; chosen, not measured. */
const FELT = 0.5;
const REPEATS = 1;
const BASS_ON_BEAT = 0.4;

/**
 * How many pulses make the beat: the number at which the strokes repeat best, over a beat, two and
 * four, near a tempo that is felt as a beat, with the bass drum and the loud strokes on it. Undefined
 * when no number gives 60 to 200 beats a minute.
 */
export function findBeat(strokes: readonly PlayedStroke[], pulse: Pulse): FoundBeat | undefined {
  const at = Int32Array.from(pulse.places, Math.round);
  const judged: { pulses: number; phase: number; score: number }[] = [];
  for (const [pulses, rareness] of RARENESS) {
    const bpm = 60e6 / (pulse.periodUs * pulses);
    if (bpm < TEMPO_BPM.least || bpm > TEMPO_BPM.most) continue;
    const felt = -((Math.log2(bpm / FELT_BPM) / FELT_OCTAVES) ** 2) / 2;
    const { phase, share } = bestPhase(strokes, at, pulses);
    const repeats =
      (repeating(strokes, at, pulses) +
        repeating(strokes, at, 2 * pulses) +
        repeating(strokes, at, 4 * pulses)) /
      3;
    const ahead = share - 1 / pulses;
    const score = FELT * felt + REPEATS * repeats + BASS_ON_BEAT * ahead - rareness;
    judged.push({ pulses, phase, score });
  }
  judged.sort((a, b) => b.score - a.score);
  const best = judged[0];
  if (!best) return undefined;
  const lead = best.score - (judged[1]?.score ?? -Infinity);
  return { pulses: best.pulses, phase: best.phase, confidence: 1 - Math.exp(-lead / 0.15) };
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
