import { mean, median } from 'simple-statistics';
import { correlator, type Correlator } from './correlator';
import { sharpen, type PlayedClicks, type Recording } from './recording';
import { envelopeOf, riseIn } from './rise';
import { steadyPath } from './steady-path';

/**
 * Where the page's clicks lie in a recording. All clicks are one known sound at known distances, so
 * there is one unknown: how late they arrive, which stays but where a block of sound was lost or repeated on the way.
 * It is found in three steps: coarsely as the lateness with the fewest jumps that follows the correlation of all
 * clicks with the sound; then by where the mean envelope of all clicks rises, since the correlation of a sound
 * with a pitch peaks at every period; then every click by itself, by the correlation's peak nearest to that. Whether
 * there are clicks at all is told by laying them over each other in groups and correlating the sums.
 */
export interface ClickOnsets {
  /** None where they do not stand out by LEAST_PEAK_DB. */
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
  /** Clicks between which nothing was lost or repeated share a number, from 0 up. */
  readonly stretch: number;
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
/** Blocks lost or repeated move clicks by up to so much from where most are. Chosen, not measured. */
const AROUND_PEAK_MS = 150;
/** A jump of the lateness must be backed by more than so many clicks. Chosen, not measured. */
const JUMP_COST = 1.5;
/** A click less like the sound than this share of the middle one is hidden. Chosen, not measured. */
const HIDDEN_BELOW = 0.5;

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
  const { lateMs, peakDb } = commonPeak(sharp, sampleRate, places, sound);
  if (peakDb < LEAST_PEAK_DB) return { peakDb, clicks: [] };
  const fromMs = Math.max(0, lateMs - AROUND_PEAK_MS);
  const arrivals = arrivalsOf(
    sharp,
    sampleRate,
    places.map((place) => place + (fromMs * sampleRate) / 1000),
    sound,
  );
  const usual = median(arrivals.map(({ likeness }) => likeness));
  const isHidden = ({ likeness }: Arrival) => likeness < HIDDEN_BELOW * usual;
  const clear = arrivals.filter((arrival) => !isHidden(arrival));
  const rise = commonRise(
    sharp,
    sampleRate,
    clear.map(({ place }) => place),
    sound,
  );
  return {
    peakDb,
    clicks: arrivals.map((arrival, k) => ({
      atSeconds: due[k]!.atSeconds,
      place: nearest(sharp, sampleRate, arrival.place + rise, sound),
      hidden: isHidden(arrival),
      stretch: arrival.stretch,
    })),
  };
}

interface Arrival {
  /** To within a coarse step. */
  readonly place: number;
  readonly likeness: number;
  readonly stretch: number;
}

function arrivalsOf(
  sharp: Float32Array,
  sampleRate: number,
  earliest: readonly number[],
  sound: Float32Array,
): Arrival[] {
  const { step, perMs, template } = coarse(sound, sampleRate);
  const reach = Math.round(2 * AROUND_PEAK_MS * perMs);
  const correlate = correlator(template, reach);
  const rows = earliest.map((place) => {
    const from = Math.round(place) - template.length * step;
    const part = thinned(sharp, from, step, reach + 2 * template.length + 1);
    return likenesses(part, template, correlate, reach);
  });
  const usual = mean(rows.map((row) => row.reduce((most, value) => Math.max(most, value), 0)));
  const { columns, hasMoved } = steadyPath(rows, JUMP_COST * usual);
  const sumAt = (before: number) =>
    rows.reduce((sum, row, k) => sum + (row[columns[k]! - before] ?? 0), 0);
  let before = Math.round(GUARD_MS * perMs);
  while (before > 0 && sumAt(before) < FIRST_SHARE * sumAt(0)) before--;
  let stretch = 0;
  return columns.map((column, k) => ({
    place: earliest[k]! + (column - before) * step,
    likeness: rows[k]![column]!,
    stretch: (stretch += hasMoved[k] ? 1 : 0),
  }));
}

/**
 * How well the template accounts for the sound around each place, 0 to 1: the share of the energy there, weighted
 * with its level against the loudest, since a late echo is like the sound, too. To the sound around belongs the
 * stretch before it that should be quiet, as long as the template: a tone that dies away is otherwise like itself
 * some periods later.
 */
function likenesses(
  part: Float64Array,
  template: Float64Array,
  correlate: Correlator,
  reach: number,
): Float32Array {
  const { length } = template;
  const energies = new Float64Array(reach);
  let energy = energyOf(part.subarray(0, 2 * length));
  for (let late = 0; late < reach; late++) {
    energies[late] = energy;
    energy = Math.max(0, energy + part[late + 2 * length]! ** 2 - part[late]! ** 2);
  }
  const loudest = energies.reduce((most, value) => Math.max(most, value), 0);
  const own = energyOf(template);
  const products = correlate(part.subarray(length));
  const out = new Float32Array(reach);
  for (let late = 0; late < reach; late++) {
    const norm = own * Math.sqrt(energies[late]! * loudest);
    if (norm > 0) out[late] = products[late]! ** 2 / norm;
  }
  return out;
}

const energyOf = (samples: Float64Array): number =>
  samples.reduce((sum, value) => sum + value * value, 0);

/** How late most clicks arrive, and how far that peak of the correlation stands out of the rest. */
function commonPeak(
  sharp: Float32Array,
  sampleRate: number,
  due: readonly number[],
  sound: Float32Array,
): { lateMs: number; peakDb: number } {
  const { step, perMs, template } = coarse(sound, sampleRate);
  const reach = Math.round(LATEST_MS * perMs);
  const power = new Float64Array(reach);
  const correlate = correlator(template, reach);
  const sum = new Float64Array(reach + template.length);
  for (let from = 0; from < due.length; from += GROUP) {
    sum.fill(0);
    for (const place of due.slice(from, from + GROUP)) {
      const part = thinned(sharp, Math.round(place), step, sum.length);
      for (let i = 0; i < part.length; i++) sum[i]! += part[i]!;
    }
    const products = correlate(sum);
    for (let late = 0; late < reach; late++) power[late]! += products[late]! ** 2;
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
  return {
    lateMs: peak / perMs,
    peakDb: rest > 0 ? 10 * Math.log10((power[peak]! * counted) / rest) : 0,
  };
}

/** The beginning of the sound at the rate of the coarse step: `step` samples in one, `perMs` of those a millisecond. */
function coarse(sound: Float32Array, sampleRate: number) {
  const step = Math.max(1, Math.round(sampleRate / COARSE_HERTZ));
  const perMs = sampleRate / step / 1000;
  return { step, perMs, template: thinned(sound, 0, step, Math.round(COARSE_LENGTH_MS * perMs)) };
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
): number {
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
  return first + best + within;
}
