import { describe, expect, it } from 'vitest';
import type { Click } from '../../src/sound/click-pattern';
import { sessionSounds, type ReferenceNote } from '../../src/sound/session-sounds';
import { velocityGain } from '../../src/sound/sound-event';

const CLICKS: readonly Click[] = [
  { timeUs: -500_000, sound: 'beat' },
  { timeUs: 0, sound: 'bar' },
  { timeUs: 500_000, sound: 'beat' },
];
const NOTES: readonly ReferenceNote[] = [
  { timeUs: -125_000, voice: 'snare', level: 'tap' },
  { timeUs: 0, voice: 'bass drum', level: 'accent' },
  { timeUs: 250_000, voice: 'snare', level: 'ghost' },
];
const drawn = (mode: 'off' | 'along' | 'alone') =>
  sessionSounds(mode, CLICKS, NOTES).map((event) =>
    event.kind === 'voice'
      ? `${event.timeUs} ${event.voice} ${event.velocity}`
      : `${event.timeUs} ${event.kind === 'click' ? event.sound : event.word}`,
  );

describe('the sounds of a session', () => {
  it('are the click only while the reference is off', () => {
    expect(drawn('off')).toEqual(['-500000 beat', '0 bar', '500000 beat']);
  });
  it('are both in time order with the reference along', () => {
    expect(drawn('along')).toEqual([
      '-500000 beat',
      '-125000 snare 72',
      '0 bar',
      '0 bass drum 112',
      '250000 snare 32',
      '500000 beat',
    ]);
  });
  it('keep the count-in and no other click with the reference alone', () => {
    expect(drawn('alone')).toEqual([
      '-500000 beat',
      '-125000 snare 72',
      '0 bass drum 112',
      '250000 snare 32',
    ]);
  });
});

// General MIDI Level 1 Developer Guidelines, p. 9: L(dB) = 40 log10(V/127) [F]; values of its curve [C].
it.each([
  [127, 0],
  [96, -4.86],
  [64, -11.9],
  [32, -23.95],
  [16, -35.99],
  [1, -84.15],
])('velocity %i sounds at %f dB', (velocity, dB) => {
  expect(20 * Math.log10(velocityGain(velocity))).toBeCloseTo(dB, 2);
});
