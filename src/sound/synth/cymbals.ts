import { decay } from './decay';
import { filter } from './filter';
import { mix } from './mix';
import { noise } from './noise';
import { partials } from './tone-burst';

/** Plate modes lie far from any harmonic series; these ratios are chosen, not measured. */
const PLATE = [1, 1.483, 1.932, 2.546, 2.63, 3.897, 4.74, 5.21];

export interface Cymbal {
  /** Lowest partial, hertz. */
  readonly hertz: number;
  /** Level of the partials against the wash. */
  readonly ring: number;
  /** The wash is what lies above this, hertz. */
  readonly washHertz: number;
  readonly decaySeconds: number;
  readonly peak: number;
  readonly seed: number;
}

/** A struck plate: a wash of noise over partials that agree in nothing, both dying away. */
export function cymbal(sampleRate: number, spec: Cymbal): Float32Array {
  const length = Math.round(spec.decaySeconds * sampleRate);
  const wash = filter(noise(length, spec.seed), sampleRate, 'high', spec.washHertz);
  const stick = filter(noise(length, spec.seed + 1), sampleRate, 'band', 5000, 0.7);
  const modes = PLATE.map((ratio) => ratio * spec.hertz);
  return mix(sampleRate, spec.peak, [
    [1, decay(wash, sampleRate, spec.decaySeconds)],
    [spec.ring, partials(length, sampleRate, modes, spec.decaySeconds)],
    [0.6, decay(stick, sampleRate, 0.015)],
  ]);
}
