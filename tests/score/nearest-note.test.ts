import fc from 'fast-check';
import { expect, it } from 'vitest';
import { nearestNote } from '../../src/score/nearest-note';

const at = (ms: number) => ({ due: { timeUs: ms * 1000, reachUs: 100_000 } });

it('is none for a stroke of the count-in or without notes', () => {
  expect(nearestNote([], { timeUs: 0 })).toBe(-1);
  expect(nearestNote([at(0)], { timeUs: -100_001 })).toBe(-1);
  expect(nearestNote([at(0)], { timeUs: -100_000 })).toBe(0);
});

it('is no farther than any other note, and the earlier of two equally near', () => {
  expect(nearestNote([at(0), at(100)], { timeUs: 50_000 })).toBe(0);
  expect(nearestNote([at(0), at(100)], { timeUs: 50_001 })).toBe(1);
  expect(nearestNote([at(0), at(0.001), at(0.002)], { timeUs: 1 })).toBe(1);
  const times = fc.array(fc.integer({ min: 0, max: 50 }), { minLength: 1, maxLength: 12 });
  fc.assert(
    fc.property(times, fc.integer({ min: 0, max: 60 }), (list, ms) => {
      const notes = list.sort((a, b) => a - b).map(at);
      const found = notes[nearestNote(notes, { timeUs: ms * 1000 })]!;
      const distance = (note: (typeof notes)[number]) => Math.abs(note.due.timeUs - ms * 1000);
      expect(distance(found)).toBe(Math.min(...notes.map(distance)));
    }),
  );
});
