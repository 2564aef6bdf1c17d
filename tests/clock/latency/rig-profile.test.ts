import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import {
  forgetProfile,
  keepProfile,
  profileFor,
  RigProfilesShape,
  type RigProfile,
} from '../../../src/clock/latency/rig-profile';
import { radioAdvice, rigWarning } from '../../../src/clock/latency/rig-warnings';

const desk: RigProfile = {
  outputLabel: 'Harbour desk, line out',
  sampleRate: 48_000,
  port: 'Ferry kit',
  deviceOffsetMs: 11.4,
  method: 'microphone',
  intervalMs: [10.8, 12],
  spreadMs: 0.6,
  strokes: 30,
  measuredAt: '2026-03-01T10:00:00.000Z',
};
const phones: RigProfile = { ...desk, outputLabel: 'Headphones', deviceOffsetMs: 4 };

describe('profiles of rigs', () => {
  it('are found for the very rig and for no other', () => {
    expect(profileFor([phones, desk], desk)).toBe(desk);
    expect(profileFor([desk], { ...desk, sampleRate: 44_100 })).toBeUndefined();
    expect(profileFor([desk], { ...desk, port: 'Pier kit' })).toBeUndefined();
  });

  it('a new measurement takes the place of the old one of its rig only', () => {
    const again = { ...desk, deviceOffsetMs: 9 };
    expect(keepProfile([phones, desk], again)).toEqual([again, phones]);
    expect(forgetProfile([phones, desk], phones)).toEqual([desk]);
  });

  it('survive being written as JSON; a damaged one is refused', () => {
    const read = (data: unknown) => v.safeParse(RigProfilesShape, data).success;
    expect(v.parse(RigProfilesShape, JSON.parse(JSON.stringify([desk, phones])))).toEqual([
      desk,
      phones,
    ]);
    expect(read([{ ...desk, deviceOffsetMs: NaN }])).toBe(false);
    expect(read([{ ...desk, deviceOffsetMs: 5000 }])).toBe(false);
    expect(read([{ ...desk, intervalMs: [3, 2] }])).toBe(false);
    expect(read([{ ...desk, method: 'guessed' }])).toBe(false);
    expect(read([{ ...desk, measuredAt: 'yesterday' }])).toBe(false);
  });
});

describe('warnings about the rig', () => {
  it('say nothing when all is as it was', () => {
    expect(rigWarning([desk], desk, desk)).toBeUndefined();
    expect(rigWarning([desk], desk)).toBeUndefined();
  });

  it('tell a changed output, with its offset or that there is none', () => {
    expect(rigWarning([desk, phones], phones, desk)).toBe(
      'The sound now comes from “Headphones” and no longer from “Harbour desk, line out”. Takes that begin from now on use its own offset of 4.0 ms.',
    );
    expect(rigWarning([desk], phones, desk)).toContain('no offset is known');
    expect(rigWarning([], { ...desk, sampleRate: 44_100 }, desk)).toContain('44100 Hz');
    expect(rigWarning([], { ...desk, port: 'Pier kit' }, desk)).toContain('“Pier kit”');
    expect(rigWarning([], desk)).toContain('No offset is known');
  });

  it('advise against sound by radio, by name or by delay, with the reason', () => {
    expect(radioAdvice('Headset (Bluetooth)', 0)).toContain('100 to 300 ms late');
    expect(radioAdvice('', 180)).toContain('a delay of 180 ms');
    expect(radioAdvice('Harbour desk, line out', 80)).toBeUndefined();
  });
});
