import { decay } from './decay';
import { filter } from './filter';
import { mix } from './mix';
import { noise } from './noise';
import { partials } from './tone-burst';

/** Wood, metal or shell with a clear pitch: a few partials and a short contact. */
export function struckBody(
  sampleRate: number,
  spec: { readonly hertz: readonly number[]; readonly decaySeconds: number; readonly peak: number },
): Float32Array {
  const length = Math.round(spec.decaySeconds * sampleRate);
  const contact = filter(noise(length, 17), sampleRate, 'band', 3500, 0.8);
  return mix(sampleRate, spec.peak, [
    [1, partials(length, sampleRate, spec.hertz, spec.decaySeconds)],
    [0.3, decay(contact, sampleRate, 0.008)],
  ]);
}

/** Grains, jingles or hands: noise round one frequency. */
export function rattle(
  sampleRate: number,
  spec: {
    readonly hertz: number;
    readonly q: number;
    readonly decaySeconds: number;
    readonly peak: number;
    readonly seed: number;
  },
): Float32Array {
  const length = Math.round(spec.decaySeconds * sampleRate);
  const grains = filter(noise(length, spec.seed), sampleRate, 'band', spec.hertz, spec.q);
  return mix(sampleRate, spec.peak, [[1, decay(grains, sampleRate, spec.decaySeconds)]]);
}
