import { clamp } from '../../../time/whole';

/** Envelope: the sum of magnitudes over this long, ms. */
const ENVELOPE_MS = 0.25;
/** Where on the rise a sound begins, as a share of its height. Chosen, not measured. */
const RISE_SHARE = 0.25;
/** What is quieter than so many times the loudest of the stretch before is not yet the sound. Chosen, not measured. */
const OVER_QUIET = 1.15;
/** But at this share of its height it is. */
const SURELY_SHARE = 0.6;

/** Sum of the magnitudes around each sample of a stretch, `from` up to `to`. */
export function envelopeOf(
  sharp: Float32Array,
  sampleRate: number,
  from: number,
  to: number,
): Float64Array {
  const width = Math.max(1, Math.round((ENVELOPE_MS / 1000) * sampleRate));
  const ahead = width >> 1;
  const out = new Float64Array(Math.max(0, to - from));
  let sum = 0;
  for (let i = from + ahead - width; i < from + ahead; i++) sum += Math.abs(sharp[i] ?? 0);
  for (let i = from; i < to; i++) {
    sum += Math.abs(sharp[i + ahead] ?? 0) - Math.abs(sharp[i + ahead - width] ?? 0);
    out[i - from] = sum;
  }
  return out;
}

/**
 * Where in an envelope a sound begins, with parts of a sample: the first moment it reaches a fixed
 * share of its own height, so that a soft stroke and a hard one are found at the same point of their rise.
 *
 * @param quiet length at the start of the envelope that is certainly before the sound.
 */
export function riseIn(envelope: Float64Array, quiet: number): number {
  let floor = 0;
  let loudest = 0;
  for (let i = 0; i < quiet; i++) {
    floor += envelope[i]! / quiet;
    loudest = Math.max(loudest, envelope[i]!);
  }
  let peak = 0;
  for (let i = quiet; i < envelope.length; i++) peak = Math.max(peak, envelope[i]!);
  const height = Math.max(0, peak - floor);
  const level = Math.min(
    floor + SURELY_SHARE * height,
    Math.max(floor + RISE_SHARE * height, OVER_QUIET * loudest),
  );
  let at = quiet;
  while (at < envelope.length - 1 && envelope[at]! < level) at++;
  const before = envelope[at - 1] ?? 0;
  const step = envelope[at]! - before;
  return step > 0 ? at - clamp((envelope[at]! - level) / step, 0, 1) : at;
}
