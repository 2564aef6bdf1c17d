import FFT from 'fft.js';

/**
 * How unlike two sounds are to a listener of words, who minds no pace: mel cepstra (S. B. Davis &
 * P. Mermelstein, IEEE Trans. ASSP 28 (1980), 357-366) along the cheapest way through both (H. Sakoe & S. Chiba, IEEE Trans.
 * ASSP 26 (1978), 43-49, symmetric form), a mean for each step, decibels. Knows nothing of how the sounds were made.
 */
export interface Sound {
  readonly samples: Float32Array;
  readonly rate: number;
}

const FRAME_SECONDS = 0.02;
const HOP_SECONDS = 0.005;
const BANDS = 24;
const HERTZ = { least: 100, most: 7000 };
/** Without the first, which is loudness. */
const CEPSTRA = 12;
/** Louder than nothing by so much is nothing still: power of a full-scale sine is about 1. */
const FLOOR = 1e-5;

const toMel = (hertz: number) => 2595 * Math.log10(1 + hertz / 700);
const toHertz = (mel: number) => 700 * (10 ** (mel / 2595) - 1);

/** One list of coefficients a frame. */
export function melCepstra({ samples, rate }: Sound): number[][] {
  const length = Math.round(FRAME_SECONDS * rate);
  const size = 2 ** Math.ceil(Math.log2(length));
  const fft = new FFT(size);
  const window = Array.from({ length }, (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / length));
  const [low, high] = [toMel(HERTZ.least), toMel(HERTZ.most)];
  const edges = Array.from({ length: BANDS + 2 }, (_, i) =>
    toHertz(low + ((high - low) * i) / (BANDS + 1)),
  );
  const frames: number[][] = [];
  for (let from = 0; from + length <= samples.length; from += Math.round(HOP_SECONDS * rate)) {
    const spectrum = fft.createComplexArray();
    fft.realTransform(
      spectrum,
      Array.from({ length: size }, (_, i) => (i < length ? samples[from + i]! * window[i]! : 0)),
    );
    const power = (bin: number) =>
      (spectrum[2 * bin]! ** 2 + spectrum[2 * bin + 1]! ** 2) / (length / 2) ** 2;
    const bands = Array.from({ length: BANDS }, (_, band) => {
      const [left, centre, right] = edges.slice(band, band + 3) as [number, number, number];
      let sum = 0;
      for (let bin = 1; bin < size / 2; bin++) {
        const hertz = (bin * rate) / size;
        const weight = Math.min(
          (hertz - left) / (centre - left),
          (right - hertz) / (right - centre),
        );
        if (weight > 0) sum += weight * power(bin);
      }
      return 10 * Math.log10(sum + FLOOR);
    });
    frames.push(
      Array.from(
        { length: CEPSTRA },
        (_, k) =>
          (2 / BANDS) *
          bands.reduce(
            (sum, db, j) => sum + db * Math.cos((Math.PI * (k + 1) * (j + 0.5)) / BANDS),
            0,
          ),
      ),
    );
  }
  return frames;
}

/** Decibels, 0 of what is the same. */
export function cepstralDistance(a: readonly number[][], b: readonly number[][]): number {
  const between = (x: readonly number[], y: readonly number[]) =>
    Math.sqrt(x.reduce((sum, one, k) => sum + (one - y[k]!) ** 2, 0) / 2);
  const costs = a.map(() => new Float64Array(b.length));
  const cost = (i: number, j: number) => (i < 0 || j < 0 ? Infinity : costs[i]![j]!);
  for (let i = 0; i < a.length; i++)
    for (let j = 0; j < b.length; j++) {
      const step = between(a[i]!, b[j]!);
      costs[i]![j] =
        i + j === 0
          ? 2 * step
          : Math.min(cost(i - 1, j) + step, cost(i, j - 1) + step, cost(i - 1, j - 1) + 2 * step);
    }
  return cost(a.length - 1, b.length - 1) / (a.length + b.length);
}
