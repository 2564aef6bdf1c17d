/** Chosen, not measured: soft enough not to crackle, short enough that the onset stays an instant. */
const ATTACK_SECONDS = 0.0006;

/** Rises at once and falls by 60 dB in `decaySeconds`; in place. */
export function decay(
  samples: Float32Array,
  sampleRate: number,
  decaySeconds: number,
): Float32Array {
  const perSample = 10 ** (-3 / (decaySeconds * sampleRate));
  const attack = Math.max(1, ATTACK_SECONDS * sampleRate);
  let level = 1;
  for (let i = 0; i < samples.length; i++) {
    samples[i] = samples[i]! * level * Math.min(1, i / attack);
    level *= perSample;
  }
  return samples;
}
