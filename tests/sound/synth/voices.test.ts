import { describe, expect, it } from 'vitest';
import { VOICES } from '../../../src/phrase/model/voice';
import { CLICK_SOUNDS } from '../../../src/sound/sound-event';
import { clickSamples } from '../../../src/sound/synth/clicks';
import { voiceSamples } from '../../../src/sound/synth/voices';
import { distance, fingerprint } from './fingerprint';

const RATE = 48_000;
const make = [
  ...CLICK_SOUNDS.map((sound) => [`click ${sound}`, () => clickSamples(sound, RATE)] as const),
  ...VOICES.map((voice) => [voice, () => voiceSamples(voice, RATE)] as const),
];
const made = make.map(([name, samples]) => [name, samples()] as const);
const bytesOf = ({ buffer }: Float32Array) => new Uint8Array(buffer);
const peakOf = (samples: Float32Array) => samples.reduce((m, s) => Math.max(m, Math.abs(s)), 0);

describe.each(made)('%s', (_name, samples) => {
  it('is finite, audible and never beyond full scale', () => {
    expect(samples.every(Number.isFinite)).toBe(true);
    expect(peakOf(samples)).toBeLessThanOrEqual(1);
    expect(peakOf(samples)).toBeGreaterThan(0.3);
  });
  it('is silent at its end', () => {
    expect(Math.abs(samples.at(-1)!)).toBe(0);
    expect(peakOf(samples.slice(-48))).toBeLessThan(0.01);
  });
  it('reaches half of its peak within 6 ms, so that its onset is an instant', () => {
    const half = peakOf(samples) / 2;
    expect(samples.findIndex((s) => Math.abs(s) >= half) / RATE).toBeLessThan(0.006);
  });
  it('lasts no longer than a second and a half', () => {
    expect(samples.length / RATE).toBeLessThanOrEqual(1.5);
  });
});

it('makes the same samples every time', () => {
  for (const [n, [, samples]] of make.entries())
    expect(Buffer.compare(bytesOf(samples()), bytesOf(made[n]![1]))).toBe(0);
});

it('makes voices that differ clearly from each other in pitch or length', () => {
  const prints = made.map(([name, samples]) => [name, fingerprint(samples, RATE)] as const);
  const near: string[] = [];
  for (const [i, [nameA, a]] of prints.entries())
    for (const [nameB, b] of prints.slice(i + 1))
      if (distance(a, b) < 10) near.push(`${nameA} and ${nameB}: ${distance(a, b).toFixed(1)} dB`);
  expect(near).toEqual([]);
});

it.each([22_050, 44_100, 96_000])('keeps its length in seconds at %i samples a second', (rate) => {
  for (const voice of VOICES)
    expect(voiceSamples(voice, rate).length / rate).toBeCloseTo(
      voiceSamples(voice, RATE).length / RATE,
      3,
    );
});
