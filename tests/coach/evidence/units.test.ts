import { describe, expect, it } from 'vitest';
import { unitsOf } from '../../../src/coach/evidence/units';
import { harbourNotes } from '../practice-take';

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
