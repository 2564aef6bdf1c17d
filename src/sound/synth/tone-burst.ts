import { decay } from './decay';

export interface Glide {
  /** Hertz at the stroke. */
  readonly from: number;
  /** Hertz it falls to. */
  readonly to: number;
  /** Time constant of the fall, seconds. */
  readonly seconds: number;
}

/** A sine that glides, as a struck skin does, and dies away by 60 dB in `decaySeconds`. */
export function toneBurst(
  length: number,
  sampleRate: number,
  glide: Glide,
  decaySeconds: number,
): Float32Array {
  const samples = new Float32Array(length);
  let phase = 0;
  for (let i = 0; i < length; i++) {
    samples[i] = Math.sin(phase);
    const hertz = glide.to + (glide.from - glide.to) * Math.exp(-i / (glide.seconds * sampleRate));
    phase += (2 * Math.PI * hertz) / sampleRate;
  }
  return decay(samples, sampleRate, decaySeconds);
}

/** Steady partials at these frequencies, each softer than the one before, dying away together. */
export function partials(
  length: number,
  sampleRate: number,
  hertz: readonly number[],
  decaySeconds: number,
): Float32Array {
  const samples = new Float32Array(length);
  hertz.forEach((h, n) => {
    const step = (2 * Math.PI * h) / sampleRate;
    const level = 1 / (1 + n * 0.35);
    for (let i = 0; i < length; i++) samples[i]! += level * Math.sin(step * i + n);
  });
  return decay(samples, sampleRate, decaySeconds);
}
