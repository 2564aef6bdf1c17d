import { describe, expect, it } from 'vitest';
import { notesToTell, unitsOf } from '../../../src/coach/evidence/units';
import { findings } from '../../../src/coach/findings';
import { timedNotes } from '../../../src/match/timed-notes';
import { BOUNDARIES, harbourNotes, harbourPlan, HUMAN, judged, play } from '../practice-take';

/** One stroke a partial: so many partials a cycle. */
const stream = (partials: number, bars: number, subdivision = 4) =>
  harbourNotes(bars, 1, {
    title: 'Stream',
    meter: '4/4',
    tempoBpm: 90,
    subdivision,
    grouping: Array.from({ length: partials }, (_, i) => 'RLK'[i % 3]).join(' '),
    layers: [{ name: 'Sticking' }],
  });

/** How many notes each unit has. */
const sizes = (partials: number, bars: number, subdivision?: number) => {
  const notes = stream(partials, bars, subdivision);
  const units = unitsOf(notes);
  const counts = new Array<number>(units.count).fill(0);
  for (const unit of units.of) counts[unit]!++;
  return counts;
};

describe('units', () => {
  it.each([
    // Bars of sixteen, cycles of twenty: bars are more.
    [20, 5, 4, [16, 16, 16, 16, 16]],
    // Cycles of twelve are more than bars of sixteen, and long enough.
    [12, 3, 4, [12, 12, 12, 12]],
    // Of eleven two have to go together; bars are more.
    [11, 4, 4, [16, 16, 16, 16]],
    // Bars of eight eighths, two by two.
    [8, 6, 2, [16, 16, 16]],
    // What is left over belongs to the last.
    [8, 5, 2, [16, 24]],
    [3, 1, 3, [12]],
  ])('%d partials a cycle, %d bars of %d a beat', (partials, bars, subdivision, expected) => {
    expect(sizes(partials, bars, subdivision)).toEqual(expected);
  });

  it('are none for fewer than twelve notes', () => {
    const few = stream(16, 1).slice(0, 11);
    expect(unitsOf(few).count).toBe(0);
    expect(unitsOf(stream(16, 1).slice(0, 12)).count).toBe(1);
    expect(unitsOf([]).count).toBe(0);
  });
});

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
