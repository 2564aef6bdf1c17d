/**
 * White noise between -1 and 1 that is the same every time for the same seed (xorshift32; Marsaglia,
 * "Xorshift RNGs", J. Stat. Softw. 8(14), 2003).
 */
export function noise(length: number, seed: number): Float32Array {
  const samples = new Float32Array(length);
  let state = (seed * 2654435761) >>> 0 || 1;
  for (let i = 0; i < length; i++) {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    samples[i] = (state >>> 0) / 2 ** 31 - 1;
  }
  return samples;
}
