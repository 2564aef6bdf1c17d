import FFT from 'fft.js';

/** Sums of products of a short sound with each stretch of a longer one: the correlation at the places 0 up to `reach`. */
export type Correlator = (part: Float64Array) => Float64Array;

/**
 * The correlation with one template at `reach` places, by Fourier transforms (fft.js): at a place it is the sum of
 * `template[i] * part[place + i]`. What it returns is overwritten by the next call. Exact to rounding: 1e-12 of the
 * energies.
 *
 * @param reach number of places; a part beyond `reach + template.length - 1` samples is not looked at.
 * @example Array.from(correlator(Float64Array.of(1, 2), 3)(Float64Array.of(1, 0, 2, 1)), Math.round) // => [1, 4, 4]
 */
export function correlator(template: Float64Array, reach: number): Correlator {
  const length = reach + template.length - 1;
  const size = 2 ** Math.max(1, Math.ceil(Math.log2(length)));
  const fft = new FFT(size);
  const padded = new Float64Array(size);
  const spectrum = new Float64Array(2 * size);
  const product = new Float64Array(2 * size);
  padded.set(template);
  const own = new Float64Array(2 * size);
  fft.realTransform(own, padded);
  fft.completeSpectrum(own);
  const out = new Float64Array(reach);
  return (part) => {
    padded.fill(0);
    padded.set(part.subarray(0, length));
    fft.realTransform(spectrum, padded);
    fft.completeSpectrum(spectrum);
    for (let k = 0; k < 2 * size; k += 2) {
      const re = spectrum[k]!;
      const im = spectrum[k + 1]!;
      const ownRe = own[k]!;
      const ownIm = own[k + 1]!;
      product[k] = re * ownRe + im * ownIm;
      product[k + 1] = im * ownRe - re * ownIm;
    }
    fft.inverseTransform(spectrum, product);
    for (let at = 0; at < reach; at++) out[at] = spectrum[2 * at]!;
    return out;
  };
}
