import { describe, expect, it } from 'vitest';
import { findSticking, type LimblessNote } from '../../../src/phrase/playability/find-sticking';
import type { Voice } from '../../../src/phrase/model/voice';

const notes = (...steps: (readonly Voice[])[]): LimblessNote[] =>
  steps.flatMap((voices, partial) => voices.map((voice) => ({ partial, voice })));
const HAT: readonly Voice[] = ['hi-hat closed'];
const SNARE: readonly Voice[] = ['snare'];
const letters = (found: readonly LimblessNote[], cycle: number, partialUs: number) =>
  findSticking(found, cycle, partialUs).limbs.join('');

// Which hand plays what: common practice, no source.
describe('a likely sticking', () => {
  it('plays a groove with the right hand on the hi-hat, over the left on the snare', () => {
    // Eighths at 100: hi-hat throughout, bass drum on 1 and 3, snare on 2 and 4.
    const beat: (readonly Voice[])[] = [
      ['hi-hat closed', 'bass drum'],
      HAT,
      ['hi-hat closed', 'snare'],
      HAT,
    ];
    expect(letters(notes(...beat, ...beat), 8, 300_000)).toBe('RKRRLRRKRRLR');
  });

  it('alternates the hands in a roll of single strokes', () => {
    expect(letters(notes(SNARE, SNARE, SNARE, SNARE), 4, 110_000)).toBe('RLRL');
  });

  it('knows the feet by their voice', () => {
    expect(letters(notes(SNARE, ['bass drum'], ['hi-hat pedal']), 3, 200_000)).toBe('RKF');
  });

  it('keeps the ride in the right hand and the snare in the left', () => {
    const ride: readonly Voice[] = ['ride'];
    expect(letters(notes(ride, SNARE, ride, SNARE), 4, 150_000)).toBe('RLRL');
  });

  it('is never called sure, since no sound tells the hand', () => {
    const ride: readonly Voice[] = ['ride'];
    const { confidence } = findSticking(notes(ride, ride, ride, ride), 4, 400_000);
    expect(confidence).toBeGreaterThan(0);
    expect(confidence).toBeLessThan(0.6);
  });
});
