export type FilterShape = 'low' | 'high' | 'band';

/**
 * A second-order filter over samples, in place. Coefficients: R. Bristow-Johnson, "Cookbook formulae
 * for audio equalizer biquad filter coefficients" (W3C Note, 2021); the band filter has 0 dB at its centre.
 */
export function filter(
  samples: Float32Array,
  sampleRate: number,
  shape: FilterShape,
  hertz: number,
  q = Math.SQRT1_2,
): Float32Array {
  const w = (2 * Math.PI * Math.min(hertz, sampleRate * 0.49)) / sampleRate;
  const alpha = Math.sin(w) / (2 * q);
  const cos = Math.cos(w);
  const a0 = 1 + alpha;
  const [b0, b1, b2] = {
    low: [(1 - cos) / 2, 1 - cos, (1 - cos) / 2],
    high: [(1 + cos) / 2, -(1 + cos), (1 + cos) / 2],
    band: [alpha, 0, -alpha],
  }[shape] as [number, number, number];
  let x1 = 0;
  let x2 = 0;
  let y1 = 0;
  let y2 = 0;
  for (let i = 0; i < samples.length; i++) {
    const x = samples[i]!;
    const y = (b0 * x + b1 * x1 + b2 * x2 + 2 * cos * y1 - (1 - alpha) * y2) / a0;
    x2 = x1;
    x1 = x;
    y2 = y1;
    y1 = y;
    samples[i] = y;
  }
  return samples;
}
