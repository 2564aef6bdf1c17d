import { decay } from './decay';
import { filter } from './filter';
import { mix } from './mix';
import { noise } from './noise';
import { partials, toneBurst } from './tone-burst';

/** A two-headed drum: a skin that glides from its strike to its pitch, and the stick's contact. */
export interface Skin {
  readonly hertz: number;
  /** How far above its pitch it is struck, as a ratio. */
  readonly strike: number;
  readonly decaySeconds: number;
  readonly peak: number;
}

export function skin(sampleRate: number, { hertz, strike, decaySeconds, peak }: Skin) {
  const length = Math.round(decaySeconds * sampleRate);
  const glide = { from: hertz * strike, to: hertz, seconds: 0.03 };
  const second = { from: hertz * strike * 1.59, to: hertz * 1.59, seconds: 0.02 };
  const contact = filter(noise(length, 5), sampleRate, 'band', 2400, 0.8);
  return mix(sampleRate, peak, [
    [1, toneBurst(length, sampleRate, glide, decaySeconds)],
    [0.35, toneBurst(length, sampleRate, second, decaySeconds * 0.5)],
    [0.5, decay(contact, sampleRate, 0.02)],
  ]);
}

/** Skin under a burst of wires. */
export function snare(sampleRate: number): Float32Array {
  const length = Math.round(0.24 * sampleRate);
  const wires = filter(noise(length, 7), sampleRate, 'high', 1700);
  const glide = { from: 300, to: 190, seconds: 0.012 };
  return mix(sampleRate, 0.85, [
    [0.8, toneBurst(length, sampleRate, glide, 0.14)],
    [0.35, toneBurst(length, sampleRate, { ...glide, from: 480, to: 335 }, 0.09)],
    [0.7, decay(wires, sampleRate, 0.2)],
  ]);
}

export function bassDrum(sampleRate: number): Float32Array {
  const length = Math.round(0.32 * sampleRate);
  const beater = filter(noise(length, 11), sampleRate, 'band', 3200, 0.7);
  return mix(sampleRate, 0.95, [
    [1, toneBurst(length, sampleRate, { from: 190, to: 52, seconds: 0.022 }, 0.3)],
    [0.4, decay(beater, sampleRate, 0.012)],
  ]);
}

/** Wood on rim: two dry partials and a crack. */
export function sideStick(sampleRate: number): Float32Array {
  const length = Math.round(0.09 * sampleRate);
  const crack = filter(noise(length, 13), sampleRate, 'band', 4200, 1.2);
  return mix(sampleRate, 0.8, [
    [1, partials(length, sampleRate, [1710, 520], 0.05)],
    [0.6, decay(crack, sampleRate, 0.015)],
  ]);
}
