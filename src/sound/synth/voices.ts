import type { Voice } from '../../phrase/model/voice';
import { cymbal } from './cymbals';
import { bassDrum, sideStick, skin, snare } from './drums';
import { rattle, struckBody } from './hand-percussion';

type Synth = (sampleRate: number) => Float32Array;

const plate =
  (spec: Parameters<typeof cymbal>[1]): Synth =>
  (rate) =>
    cymbal(rate, spec);
const drum =
  (spec: Parameters<typeof skin>[1]): Synth =>
  (rate) =>
    skin(rate, spec);
const body =
  (hertz: readonly number[], decaySeconds: number, peak: number): Synth =>
  (rate) =>
    struckBody(rate, { hertz, decaySeconds, peak });
const grains =
  (hertz: number, q: number, decaySeconds: number, peak: number, seed: number): Synth =>
  (rate) =>
    rattle(rate, { hertz, q, decaySeconds, peak, seed });

/** How each voice is made. Every figure is chosen by its sound, not measured. */
const SYNTHS: Readonly<Record<Voice, Synth>> = {
  'bass drum': bassDrum,
  snare,
  'side stick': sideStick,
  'high tom': drum({ hertz: 196, strike: 1.5, decaySeconds: 0.32, peak: 0.8 }),
  'mid tom': drum({ hertz: 139, strike: 1.5, decaySeconds: 0.4, peak: 0.8 }),
  'floor tom': drum({ hertz: 87, strike: 1.6, decaySeconds: 0.52, peak: 0.85 }),
  'hi-hat closed': plate({
    hertz: 3900,
    ring: 0.12,
    washHertz: 7500,
    decaySeconds: 0.07,
    peak: 0.5,
    seed: 21,
  }),
  'hi-hat open': plate({
    hertz: 3900,
    ring: 0.12,
    washHertz: 6500,
    decaySeconds: 0.6,
    peak: 0.5,
    seed: 23,
  }),
  'hi-hat pedal': plate({
    hertz: 2100,
    ring: 0.1,
    washHertz: 3600,
    decaySeconds: 0.05,
    peak: 0.42,
    seed: 25,
  }),
  'hi-hat foot splash': plate({
    hertz: 2500,
    ring: 0.16,
    washHertz: 4200,
    decaySeconds: 0.36,
    peak: 0.45,
    seed: 27,
  }),
  splash: plate({
    hertz: 1250,
    ring: 0.14,
    washHertz: 5000,
    decaySeconds: 0.5,
    peak: 0.55,
    seed: 29,
  }),
  china: plate({
    hertz: 560,
    ring: 0.22,
    washHertz: 2200,
    decaySeconds: 0.75,
    peak: 0.55,
    seed: 31,
  }),
  crash: plate({ hertz: 760, ring: 0.14, washHertz: 3200, decaySeconds: 1.3, peak: 0.6, seed: 33 }),
  ride: plate({ hertz: 1130, ring: 0.5, washHertz: 8000, decaySeconds: 0.8, peak: 0.4, seed: 35 }),
  'ride bell': body([1480, 2330, 3640, 5180], 0.6, 0.5),
  cowbell: body([562, 845], 0.22, 0.55),
  tambourine: grains(8800, 1.6, 0.22, 0.5, 41),
  'hand clap': grains(1250, 1.1, 0.16, 0.65, 43),
  'wood block': body([1050, 2480], 0.08, 0.6),
  claves: body([2500], 0.09, 0.55),
  triangle: body([4190, 6510, 9300], 0.9, 0.35),
  shaker: grains(6200, 0.9, 0.09, 0.4, 45),
  guiro: grains(3100, 3.5, 0.3, 0.5, 47),
  vibraslap: grains(2000, 7, 0.7, 0.5, 49),
  whistle: body([2350, 2410], 0.3, 0.4),
  cuica: drum({ hertz: 430, strike: 1.9, decaySeconds: 0.2, peak: 0.6 }),
  agogo: body([905, 1410], 0.35, 0.5),
  timbale: drum({ hertz: 335, strike: 1.15, decaySeconds: 0.36, peak: 0.7 }),
  bongo: drum({ hertz: 405, strike: 1.2, decaySeconds: 0.14, peak: 0.7 }),
  conga: drum({ hertz: 268, strike: 1.12, decaySeconds: 0.21, peak: 0.75 }),
};

/** One stroke of a voice as samples between -1 and 1, the same every time. */
export const voiceSamples = (voice: Voice, sampleRate: number): Float32Array =>
  SYNTHS[voice](sampleRate);
