import { expect, it } from 'vitest';
import { STAFF_PLACES } from '../../src/notation/staff-places';
import type { Voice } from '../../src/phrase/model/voice';

// Weinberg, "Guidelines for Drumset Notation", Percussive Notes 32(3), 1994, as an engraver's table made after it has it [F].
it.each<[Voice, number]>([
  ['bass drum', -3],
  ['snare', 1],
  ['side stick', 1],
  ['high tom', 4],
  ['mid tom', 2],
  ['floor tom', -1],
  ['cowbell', 3],
  ['hi-hat closed', 5],
  ['hi-hat open', 5],
  ['hi-hat pedal', -5],
  ['hi-hat foot splash', -5],
  ['ride', 4],
  ['ride bell', 4],
  ['crash', 6],
  ['china', 7],
])('%s stands %i half spaces above the middle line, as Weinberg has it', (voice, place) => {
  expect(STAFF_PLACES[voice]).toBe(place);
});
