import { sharpen, type PlayedClicks, type Recording } from './recording';
import { envelopeOf, riseIn } from './rise';

/**
 * Where the page's clicks lie in a recording. All clicks are one known sound at known distances, so
 * there is one unknown: how late they arrive. It is found in three steps: coarsely by laying clicks over
 * each other in groups and correlating the sums with the sound; then by where the mean envelope of
 * all clicks rises, since the correlation of a sound with a pitch peaks at every period; then every click by
 * itself, by the correlation's peak nearest to that.
 */
export interface ClickOnsets {
  readonly clicks: readonly ClickOnset[];
  /** How far the correlation's peak stands out of the rest, dB. */
  readonly peakDb: number;
}

export interface ClickOnset {
  /** Audio time it was queued for, seconds. */
  readonly atSeconds: number;
  /** Sample place of its beginning, with parts of a sample. */
  readonly place: number;
  /** Noise or something else is as loud: the place is a guess. */
  readonly hidden: boolean;
}

/** Chosen: a common demand on loopback measurements; noise alone reaches 13 dB or so. */
export const LEAST_PEAK_DB = 18;
/** Clicks are looked for this much later than queued, ms; the next click must not come sooner. */
export const LATEST_MS = 600;
/** Groups are short, so that clocks that drift apart do not blur the sums. Chosen, not measured. */
const GROUP = 8;
/** The rate of the coarse step, about, hertz: keeps the partials of every click. */
const COARSE_HERTZ = 12_000;
/** Nearer to the peak than this the correlation is the click's own ring and echo. Chosen, not measured. */
const GUARD_MS = 120;
/** The beginning of the click that is compared, ms. */
const COARSE_LENGTH_MS = 30;
const FINE_LENGTH_MS = 20;
/** Less than half the period of the highest partial of a click to each side. */
const FINE_REACH_MS = 0.1;
/** The stretch in which the mean envelope rises, ms before and after the coarse answer, and its quiet part. */
const RISE_BEFORE_MS = 9;
const RISE_AFTER_MS = 9;
const QUIET_MS = 6;
/** An echo may be louder than the sound itself, which is the first that is at least this share of the loudest. */
const FIRST_SHARE = 0.25;
/** A click whose own correlation is less than this share of the middle one's is hidden. Chosen, not measured. */
const HIDDEN_BELOW = 0.3;

/** Undefined when the recording is too short to hold the clicks. */
export function findClicks(
  recording: Pick<Recording, 'samples' | 'sampleRate' | 'startSeconds'>,
  clicks: PlayedClicks,
): ClickOnsets | undefined {
  const { sampleRate, startSeconds } = recording;
  const sharp = sharpen(recording.samples, sampleRate);
  const due = clicks.atSeconds
    .map((atSeconds) => ({ atSeconds, place: (atSeconds - startSeconds) * sampleRate }))
    .filter(({ place }) => place >= 0 && place + (LATEST_MS / 1000) * sampleRate < sharp.length);
  if (due.length === 0) return undefined;
  const sound = sharpen(clicks.samplesAt(sampleRate), sampleRate);
  const places = due.map(({ place }) => place);
  const { late, peakDb } = coarsely(sharp, sampleRate, places, sound);
  const rise = commonRise(
    sharp,
    sampleRate,
    places.map((place) => place + late),
    sound,
  );
  const found = places.map((place) => nearest(sharp, sampleRate, place + late + rise, sound));
  const strengths = found.map(({ strength }) => strength).sort((a, b) => a - b);
  const usual = strengths[strengths.length >> 1]!;
  return {
    peakDb,
    clicks: found.map(({ place, strength }, k) => ({
      atSeconds: due[k]!.atSeconds,
      place,
      hidden: strength < HIDDEN_BELOW * usual,
    })),
  };
}

function coarsely(
  sharp: Float32Array,
  sampleRate: number,
  due: readonly number[],
  sound: Float32Array,
): { late: number; peakDb: number } {
  const step = Math.max(1, Math.round(sampleRate / COARSE_HERTZ));
  const perMs = sampleRate / step / 1000;
  const reach = Math.round(LATEST_MS * perMs);
  const template = thinned(sound, 0, step, Math.round(COARSE_LENGTH_MS * perMs));
  const power = new Float64Array(reach);
  const sum = new Float64Array(reach + template.length);
  for (let from = 0; from < due.length; from += GROUP) {
    sum.fill(0);
    for (const place of due.slice(from, from + GROUP)) {
      const part = thinned(sharp, Math.round(place), step, sum.length);
      for (let i = 0; i < part.length; i++) sum[i]! += part[i]!;
    }
    for (let late = 0; late < reach; late++) {
      let product = 0;
      for (let i = 0; i < template.length; i++) product += template[i]! * sum[late + i]!;
      power[late]! += product * product;
    }
  }
  let peak = 0;
  for (let late = 1; late < reach; late++) if (power[late]! > power[peak]!) peak = late;
  const guard = GUARD_MS * perMs;
  let rest = 0;
  let counted = 0;
  for (let late = 0; late < reach; late++)
    if (Math.abs(late - peak) > guard) {
      rest += power[late]!;
      counted++;
    }
  const peakDb = rest > 0 ? 10 * Math.log10((power[peak]! * counted) / rest) : 0;
  const first = power.findIndex(
    (value, late) => late >= peak - guard && value >= FIRST_SHARE * power[peak]!,
  );
  return { late: first * step, peakDb };
}

/** Every `step` samples in one, from `from` on. */
function thinned(samples: Float32Array, from: number, step: number, length: number): Float64Array {
  const out = new Float64Array(length);
  for (let i = 0; i < length; i++) {
    let sum = 0;
    for (let k = 0; k < step; k++) sum += samples[from + i * step + k] ?? 0;
    out[i] = sum;
  }
  return out;
}

/** How much later than the coarse answer the clicks begin, samples: their mean envelope against the sound's own. */
function commonRise(
  sharp: Float32Array,
  sampleRate: number,
  places: readonly number[],
  sound: Float32Array,
): number {
  const perMs = sampleRate / 1000;
  const before = Math.round(RISE_BEFORE_MS * perMs);
  const after = Math.round(RISE_AFTER_MS * perMs);
  const quiet = Math.round(QUIET_MS * perMs);
  const mean = new Float64Array(before + after);
  for (const place of places) {
    const from = Math.round(place) - before;
    const one = envelopeOf(sharp, sampleRate, from, from + mean.length);
    for (let i = 0; i < mean.length; i++) mean[i]! += one[i]!;
  }
  const own = envelopeOf(sound, sampleRate, -before, after);
  return riseIn(mean, quiet) - riseIn(own, quiet);
}

/** The best place within a little of `about`, by correlation whichever way the microphone is poled. */
function nearest(
  sharp: Float32Array,
  sampleRate: number,
  about: number,
  sound: Float32Array,
): { place: number; strength: number } {
  const reach = Math.round((FINE_REACH_MS / 1000) * sampleRate);
  const length = Math.min(sound.length, Math.round((FINE_LENGTH_MS / 1000) * sampleRate));
  const first = Math.round(about) - reach;
  const products = Array.from({ length: 2 * reach + 1 }, (_, late) => {
    let product = 0;
    for (let i = 0; i < length; i++) product += sound[i]! * (sharp[first + late + i] ?? 0);
    return Math.abs(product);
  });
  let best = 0;
  products.forEach((product, late) => {
    if (product > products[best]!) best = late;
  });
  const before = products[best - 1] ?? 0;
  const after = products[best + 1] ?? 0;
  const peak = products[best]!;
  const bend = before - 2 * peak + after;
  const within = bend < 0 ? (before - after) / (2 * bend) : 0;
  return { place: first + best + within, strength: peak };
}
