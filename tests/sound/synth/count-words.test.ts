import { describe, expect, it } from 'vitest';
import { WORD_US } from '../../../src/sound/count-pattern';
import { COUNT_WORDS, type CountWord } from '../../../src/sound/sound-event';
import { countWordSound } from '../../../src/sound/synth/count-words';
import { filter } from '../../../src/sound/synth/filter';
import { formantsAt } from './formants';

/** Samples a second, and whether the words are short. */
const WAYS = [
  [44_100, 'in full', false],
  [48_000, 'in full', false],
  [44_100, 'short', true],
  [48_000, 'short', true],
] as const;

/** Peterson & Barney 1952, JASA 24:175-184, table II, means of 33 men: the first two formants, hertz [M]. */
const VOWELS: Readonly<Record<CountWord, readonly [number, number]>> = {
  '1': [640, 1190],
  '2': [300, 870],
  '3': [270, 2290],
  '4': [570, 840],
  '5': [730, 1090],
  '6': [390, 1990],
  '7': [530, 1840],
  // [eI] is not in the table: between those of "bid" and "bed".
  '8': [460, 1990],
  '9': [730, 1090],
  '10': [530, 1840],
  '11': [530, 1840],
  '12': [530, 1840],
  '&': [660, 1720],
  e: [270, 2290],
  a: [640, 1190],
  trip: [390, 1990],
  let: [530, 1840],
};

const rms = (samples: Float32Array, from: number, to: number) => {
  const part = samples.subarray(Math.max(0, from), to);
  return Math.sqrt(part.reduce((sum, x) => sum + x * x, 0) / Math.max(1, part.length));
};

/**
 * Where a word is felt to begin: the middle of the steepest rise of its loudness around 1 kHz, after Cummins & Port 1998
 * (J. Phonetics 26:145-171): band of 600 Hz, rectified and smoothed, halfway between 10 and 90 % of the first peak [M].
 */
function feltSeconds(samples: Float32Array, rate: number): number {
  const band = filter(samples.slice(), rate, 'band', 1000, 1000 / 600);
  const energy = filter(filter(band.map(Math.abs), rate, 'low', 25), rate, 'low', 25);
  const most = energy.reduce((a, b) => Math.max(a, b), 0);
  // The first peak of at least half the largest.
  let peak = energy.findIndex((x, i) => x > most / 2 && x > (energy[i + 1] ?? 0));
  if (peak < 0) peak = energy.indexOf(most);
  const at = (share: number) => {
    let i = peak;
    while (i > 0 && energy[i]! > share * energy[peak]!) i--;
    return i;
  };
  return (at(0.1) + at(0.9)) / 2 / rate;
}

describe.each(WAYS)('the words of a count at %d samples a second, %s', (rate, _, isShort) => {
  it.each(COUNT_WORDS)('"%s" is short, audible and within range', (word) => {
    const { samples } = countWordSound(word, isShort, rate);
    expect(samples.length / rate).toBeGreaterThan(isShort ? 0.07 : 0.1);
    expect(samples.length / rate).toBeLessThanOrEqual(isShort ? 0.15 : 0.33);
    const peak = samples.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
    expect(peak).toBeCloseTo(0.8, 3);
    expect(samples.every(Number.isFinite)).toBe(true);
    expect(Math.abs(samples.at(-1)!)).toBeLessThan(0.01);
  });

  // What moves within a short word is all of it on its way.
  const held = COUNT_WORDS.filter((word) => !isShort || !['2', '5', '8', '9'].includes(word));
  it.each(held)('"%s" has the vowel that it is spelled with', (word) => {
    const { samples, beatSeconds } = countWordSound(word, isShort, rate);
    const [first, second] = VOWELS[word];
    // A short vowel is on its way to the next sound within the window that is looked at.
    const apart = isShort ? 0.2 : 0.15;
    const near = (found: number, wanted: number) => Math.abs(found / wanted - 1) < apart;
    const after = isShort ? [0.01, 0.02, 0.03] : [0.03, 0.045, 0.06];
    const looks = after.map((s) => formantsAt(samples, rate, beatSeconds + s));
    expect(
      looks.some((found) => near(found[0]!, first) && near(found[1]!, second)),
      JSON.stringify(looks),
    ).toBe(true);
  });

  // Of "eleven" the stressed syllable, the second one, is on the beat, and this finds the first.
  const oneBeat = COUNT_WORDS.filter((word) => word !== '11');
  it.each(oneBeat)('"%s" is felt on the beat: all within 30 ms of each other', (word) => {
    const { samples, beatSeconds } = countWordSound(word, isShort, rate);
    const lead = feltSeconds(samples, rate) - beatSeconds;
    expect(lead * 1000).toBeGreaterThan(0);
    expect(lead * 1000).toBeLessThan(30);
  });

  it.each<CountWord>(['3', '4', '5', '6', '7'])(
    '"%s" begins with a hiss, before its vowel',
    (word) => {
      const { samples, beatSeconds } = countWordSound(word, isShort, rate);
      const beat = Math.round(beatSeconds * rate);
      const high = filter(samples.slice(), rate, 'high', 4000);
      const share = (from: number, to: number) => rms(high, from, to) / rms(samples, from, to);
      const hiss = share(0, Math.round(Math.min(0.05 * rate, 0.6 * beat)));
      expect(hiss).toBeGreaterThan(
        (isShort ? 3 : 4) * share(beat + 0.015 * rate, beat + 0.035 * rate),
      );
    },
  );
});

it.each([
  [WORD_US.full, false],
  [WORD_US.short, true],
])('any word fits before any other within %d µs', (roomUs, isShort) => {
  const sounds = COUNT_WORDS.map((word) => countWordSound(word, isShort, 48_000));
  const ahead = Math.max(...sounds.map(({ beatSeconds }) => beatSeconds));
  const after = Math.max(
    ...sounds.map(({ samples, beatSeconds }) => samples.length / 48_000 - beatSeconds),
  );
  // To a sample either way, and no more room than that.
  expect(Math.round((ahead + after) * 1e6)).toBeLessThanOrEqual(roomUs + 42);
  expect(Math.round((ahead + after) * 1e6)).toBeGreaterThan(roomUs - 1000);
});
