const BANDS_HERTZ = [60, 110, 200, 350, 600, 1000, 1700, 2900, 4800, 8000, 12_000];

/** Power of the samples near one frequency, by correlation with a sine and a cosine over the stretch. */
function powerNear(samples: Float32Array, sampleRate: number, hertz: number): number {
  let power = 0;
  for (const h of [hertz * 0.85, hertz, hertz * 1.18]) {
    let re = 0;
    let im = 0;
    for (let i = 0; i < samples.length; i++) {
      const angle = (2 * Math.PI * h * i) / sampleRate;
      re += samples[i]! * Math.cos(angle);
      im += samples[i]! * Math.sin(angle);
    }
    power += re * re + im * im;
  }
  return power;
}

/** How a sound is spread over pitch, dB against its strongest band, and how long it rings, in thirds of a decade. */
export function fingerprint(samples: Float32Array, sampleRate: number): number[] {
  const powers = BANDS_HERTZ.map((hertz) => powerNear(samples, sampleRate, hertz));
  const most = Math.max(...powers);
  const energy = samples.reduce((sum, s) => sum + s * s, 0);
  let heard = 0;
  let ringing = 0;
  while (heard < 0.95 * energy) heard += samples[ringing++]! ** 2;
  return [
    ...powers.map((power) => Math.max(-30, 10 * Math.log10(power / most))),
    30 * Math.log10(ringing / sampleRate),
  ];
}

/** Distance of two fingerprints, dB. */
export const distance = (a: readonly number[], b: readonly number[]): number =>
  Math.sqrt(a.reduce((sum, value, i) => sum + (value - b[i]!) ** 2, 0));
