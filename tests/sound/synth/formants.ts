/** How much of the wave is looked at, seconds. */
const WINDOW_SECONDS = 0.04;
/** Two poles for each of the formants up to 5 kHz, and two for the tilt (Markel & Gray, Linear Prediction of Speech, 1976 [M]). */
const ORDER = 12;
const HERTZ_STEP = 5;
const MOST_HERTZ = 4000;

/**
 * The first formants around a moment, hertz: peaks of an all-pole spectrum (autocorrelation method, Levinson's recursion)
 * of the wave with 6 dB an octave taken back. Knows nothing of how the wave was made.
 */
export function formantsAt(samples: Float32Array, sampleRate: number, atSeconds: number): number[] {
  const step = Math.round(sampleRate / 10_000);
  const rate = sampleRate / step;
  const low = lowered(samples, step);
  const size = Math.round(WINDOW_SECONDS * rate);
  const from = Math.max(0, Math.min(low.length - size, Math.round(atSeconds * rate - size / 2)));
  const wave = Array.from({ length: size }, (_, i) => {
    const emphasized = low[from + i]! - 0.97 * (low[from + i - 1] ?? 0);
    return emphasized * (0.54 - 0.46 * Math.cos((2 * Math.PI * i) / (size - 1)));
  });
  const poles = predictor(wave);
  const level = (hertz: number) => {
    let re = 1;
    let im = 0;
    poles.forEach((a, k) => {
      const w = (2 * Math.PI * hertz * (k + 1)) / rate;
      re += a * Math.cos(w);
      im -= a * Math.sin(w);
    });
    return -Math.log(re * re + im * im);
  };
  const peaks: number[] = [];
  for (let hertz = 150; hertz < MOST_HERTZ; hertz += HERTZ_STEP) {
    const here = level(hertz);
    if (here > level(hertz - HERTZ_STEP) && here >= level(hertz + HERTZ_STEP)) peaks.push(hertz);
  }
  return peaks;
}

/** Every so many samples one, which is the mean of its stretch twice over. */
function lowered(samples: Float32Array, step: number): number[] {
  const mean = (list: ArrayLike<number>, i: number) => {
    let sum = 0;
    for (let k = 0; k < step; k++) sum += list[i + k] ?? 0;
    return sum / step;
  };
  const smooth = Array.from({ length: samples.length }, (_, i) => mean(samples, i));
  return Array.from({ length: Math.floor(samples.length / step) }, (_, i) =>
    mean(smooth, i * step),
  );
}

/** Coefficients a1, a2, … of the polynomial 1 + a1 z⁻¹ + … */
function predictor(wave: readonly number[]): number[] {
  const r = Array.from({ length: ORDER + 1 }, (_, lag) =>
    wave.reduce((sum, x, i) => sum + x * (wave[i + lag] ?? 0), 0),
  );
  let a: number[] = [];
  let error = r[0]!;
  for (let m = 1; m <= ORDER; m++) {
    const k = -(r[m]! + a.reduce((sum, aj, j) => sum + aj * r[m - 1 - j]!, 0)) / error;
    a = [...a.map((aj, j) => aj + k * a[m - 2 - j]!), k];
    error *= 1 - k * k;
  }
  return a;
}
