import { sharpen } from './recording';
import { envelopeOf, riseIn } from './rise';

/**
 * Where something was struck: the places at which the energy of the sharpened recording jumps. A
 * stick on a pad is a burst of high frequencies, while hum and a room's ring are not. The beginning is
 * then refined on the envelope, sample by sample.
 */

/** Length over which energy is summed, ms. */
const HOP_MS = 1;
/** The jump is judged against the energy from this long before ... */
const BEFORE_MS = 12;
/** ... up to this long before, since a rise may take some time. */
const GAP_MS = 2;
/** How far above what was before a strike stands out, dB. Chosen, not measured. */
const JUMP_DB = 6;
/** And above the quiet of the whole recording, dB. Chosen, not measured. */
const OVER_QUIET_DB = 6;
/** No two strikes are nearer than this, ms: a stick bounces and a pad rings. */
const DEAD_MS = 60;
/** The stretch that is searched for the rise, ms before and after the jump, and its quiet part. */
const SEARCH_BEFORE_MS = 10;
const SEARCH_AFTER_MS = 4;
const QUIET_MS = 7;

/**
 * Sample places of strikes, ascending.
 *
 * @param masked stretches [from, to) in samples to be passed over, ascending: the page's own clicks.
 */
export function findStrikes(
  samples: Float32Array,
  sampleRate: number,
  masked: readonly (readonly [from: number, to: number])[],
): number[] {
  const sharp = sharpen(samples, sampleRate);
  const hop = Math.max(1, Math.round((HOP_MS / 1000) * sampleRate));
  const energy = energies(sharp, hop);
  const isMasked = maskOf(energy.length, hop, masked);
  const quiet = quantileOf(
    energy.filter((_, n) => isMasked[n] === 0),
    0.25,
  );
  const before = Math.round(BEFORE_MS / HOP_MS);
  const gap = Math.round(GAP_MS / HOP_MS);
  const jump = 10 ** (JUMP_DB / 10);
  const least = quiet * 10 ** (OVER_QUIET_DB / 10);
  const strikes: number[] = [];
  let free = 0;
  for (let n = before; n < energy.length; n++) {
    if (n < free || isMasked[n] === 1 || energy[n]! <= least) continue;
    let past = 0;
    for (let m = n - before; m < n - gap; m++) past = Math.max(past, energy[m]!);
    if (energy[n]! <= jump * past) continue;
    strikes.push(refined(sharp, sampleRate, n * hop));
    free = n + Math.round(DEAD_MS / HOP_MS);
  }
  return strikes;
}

function energies(sharp: Float32Array, hop: number): Float64Array {
  const out = new Float64Array(Math.floor(sharp.length / hop));
  for (let n = 0; n < out.length; n++) {
    let sum = 0;
    for (let i = n * hop; i < (n + 1) * hop; i++) sum += sharp[i]! * sharp[i]!;
    out[n] = sum;
  }
  return out;
}

function maskOf(
  length: number,
  hop: number,
  masked: readonly (readonly [from: number, to: number])[],
): Uint8Array {
  const out = new Uint8Array(length);
  for (const [from, to] of masked)
    out.fill(1, Math.max(0, Math.floor(from / hop)), Math.max(0, Math.ceil(to / hop)));
  return out;
}

function quantileOf(values: Float64Array, share: number): number {
  return values.sort()[Math.floor(share * values.length)] ?? 0;
}

function refined(sharp: Float32Array, sampleRate: number, about: number): number {
  const perMs = sampleRate / 1000;
  const from = Math.round(about - SEARCH_BEFORE_MS * perMs);
  const to = Math.round(about + SEARCH_AFTER_MS * perMs);
  return from + riseIn(envelopeOf(sharp, sampleRate, from, to), Math.round(QUIET_MS * perMs));
}
