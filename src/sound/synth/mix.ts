/** Chosen, not measured. */
const FADE_SECONDS = 0.008;

/**
 * Sums parts of one length, sets the loudest sample to `peak`, and fades the end to nothing so that
 * it cannot crackle.
 */
export function mix(
  sampleRate: number,
  peak: number,
  parts: readonly (readonly [level: number, samples: Float32Array])[],
): Float32Array {
  const length = parts[0]?.[1].length ?? 0;
  const out = new Float32Array(length);
  for (const [level, samples] of parts)
    for (let i = 0; i < length; i++) out[i]! += level * samples[i]!;
  const fade = Math.min(length, Math.round(FADE_SECONDS * sampleRate));
  for (let i = 0; i < fade; i++) out[length - 1 - i]! *= i / fade;
  const loudest = out.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  return out.map((sample) => (sample / loudest) * peak);
}
