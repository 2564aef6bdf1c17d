/** What one microphone heard of the loudspeaker and of the pad, and what is known of the clocks. */
export interface Recording {
  /** One channel; echo cancellation, noise suppression and gain control switched off. */
  readonly samples: Float32Array;
  /** Hertz. */
  readonly sampleRate: number;
  /** Audio time of the first sample, seconds. */
  readonly startSeconds: number;
  /** Performance time, ms, at which the sound of an audio time is heard, by the clock map. */
  performanceMsAt(audioSeconds: number): number;
}

/** The clicks that were played: one sound, at even distances. */
export interface PlayedClicks {
  /** Audio times they were queued for, seconds, ascending. */
  readonly atSeconds: readonly number[];
  /** The click's samples at a sample rate. */
  samplesAt(sampleRate: number): Float32Array;
}

/** Chosen, not measured: passes 1 to 10 kHz best, where a stick is loud and a room is quiet. */
const SHARPEN_MS = 0.08;

/**
 * Each sample less the one 0.08 ms before. Hum goes down by 30 dB against a stroke, and the sharp
 * beginning of a sound stands out of its ring.
 */
export function sharpen(samples: Float32Array, sampleRate: number): Float32Array {
  const before = Math.max(1, Math.round((SHARPEN_MS / 1000) * sampleRate));
  const out = new Float32Array(samples.length);
  for (let i = 0; i < samples.length; i++) out[i] = samples[i]! - (samples[i - before] ?? 0);
  return out;
}
