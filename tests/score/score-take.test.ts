import fc from 'fast-check';
import { expect, it } from 'vitest';
import { scoreTake } from '../../src/score/score-take';
import { harbourNotes, judged, play } from '../coach/practice-take';
import { runCount } from '../run-count';

const notes = harbourNotes(6);
const share = fc.double({ min: 0, max: 0.5, noNaN: true });
const takes = fc
  .record({
    missed: share,
    extra: share,
    wrongVoices: share,
    loudGhosts: share,
    spreadMs: fc.double({ min: 0, max: 60, noNaN: true }),
  })
  .chain((faults) => fc.integer({ min: 1, max: 1e6 }).map((seed) => play(notes, faults, seed)));

it('lawConservation: every note and every stroke is told exactly once', () => {
  fc.assert(
    fc.property(takes, (strokes) => {
      const score = scoreTake(judged(notes, strokes));
      const { overall } = score;
      for (const groups of [score.byVoice, score.byLimb, score.byLevel, score.byPosition])
        for (const key of ['count', 'missed', 'wrongVoice', 'tooLoud', 'timed'] as const)
          expect([...groups.values()].reduce((sum, one) => sum + one[key], 0)).toBe(overall[key]);
      expect(overall.inTime + overall.early + overall.late).toBe(overall.timed);
      expect(overall.timed + overall.wrongVoice + overall.missed).toBe(notes.length);
      expect(overall.answered + score.extras).toBe(strokes.length);
      const sum = (counts: Iterable<number>) => [...counts].reduce((total, one) => total + one, 0);
      expect(sum(score.extrasByVoice.values())).toBe(score.extras);
      expect(sum(score.wrongVoices.map(({ count }) => count))).toBe(overall.wrongVoice);
      // The phrase's first layer made every note.
      expect(score.byLayer.get(1)!.count).toBe(notes.length);
    }),
    { numRuns: runCount(40) },
  );
});

it('lawShift: moving phrase and take together changes nothing', () => {
  const move = 7_200_000_000;
  const moved = notes.map((due) => ({ ...due, timeUs: due.timeUs + move }));
  fc.assert(
    fc.property(takes, (strokes) => {
      const later = strokes.map((stroke) => ({ ...stroke, timeUs: stroke.timeUs + move }));
      expect(scoreTake(judged(moved, later))).toEqual(scoreTake(judged(notes, strokes)));
    }),
    { numRuns: 20 },
  );
});

it('lawGain: pads that are all twice as soft show the same contrast and separation', () => {
  const strokes = play(notes, { velocities: { ghost: 30, tap: 60, accent: 110 } }, 3);
  const soft = strokes.map((stroke) => ({ ...stroke, velocity: stroke.velocity / 2 }));
  const loud = scoreTake(judged(notes, strokes)).dynamics.overall;
  const quiet = scoreTake(judged(notes, soft)).dynamics.overall;
  // 40·log10(110/30) = 22.57 dB by the GM volume law [C].
  expect(loud.contrastDb).toBeCloseTo(22.57, 2);
  expect(quiet.contrastDb).toBeCloseTo(22.57, 2);
  expect([loud.separation, quiet.separation]).toEqual([1, 1]);
});
