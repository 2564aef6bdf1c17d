import { describe, expect, it } from 'vitest';
import { notesToTell } from '../../../src/coach/evidence/notes-to-tell';
import { findings } from '../../../src/coach/findings';
import { timedNotes } from '../../../src/match/timed-notes';
import { BOUNDARIES, harbourPlan, HUMAN, judged, play } from '../practice-take';

/** So many strokes a cycle, and rests up to its end. */
const strokes = (count: number, rests: number, subdivision: number) => ({
  title: 'Counted Out',
  meter: '4/4',
  tempoBpm: 90,
  subdivision,
  grouping: Array.from({ length: count + rests }, (_, i) => (i < count ? 'RL'[i % 2] : '-')).join(
    ' ',
  ),
  layers: [{ name: 'Sticking' }],
});

const CASES = [
  // Bars of sixteen: five whole ones, and as much of the sixth as a unit needs.
  [strokes(16, 0, 4), 5 * 16 + 12],
  // Bars of twelve: six of them.
  [strokes(12, 0, 3), 72],
  // Two bars of eight at a time.
  [strokes(8, 0, 2), 5 * 16 + 12],
  // Cycles of thirteen are more than bars of sixteen.
  [strokes(13, 0, 4), 5 * 13 + 12],
  // One stroke in four bars: no unit has more than it needs.
  [strokes(1, 63, 4), 72],
] as const;

describe('notes that time is told from', () => {
  it.each(CASES)('%#', (file, expected) => {
    expect(notesToTell(harbourPlan(1, file).phrase, 1)).toBe(expected);
  });

  it.each(CASES)(
    'are those at which it is told, and never fewer than there are: %#',
    (file, of) => {
      const plan = harbourPlan(1, file);
      const notes = timedNotes(plan, 800e6);
      for (const count of [12, of - 1, of]) {
        const due = notes.slice(0, count);
        const [first] = findings(plan, judged(due, play(due, HUMAN, 1)), () => BOUNDARIES);
        if (count < of)
          expect(first?.text).toBe(`Nothing to say about time yet: ${count} of ${of} strokes.`);
        else expect(first?.code).not.toBe('undecided');
      }
    },
  );
});
