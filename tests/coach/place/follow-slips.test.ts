import { describe, expect, it } from 'vitest';
import { followSlips } from '../../../src/coach/place/follow-slips';
import { slipsInTake } from '../../../src/coach/place/slips';
import { GENERAL_MIDI } from '../../../src/kit/built-in-kits';
import { readStrokes } from '../../../src/kit/read-strokes';
import { assess } from '../../../src/score/assess';
import { figuresOf } from '../../../src/score/figures';
import { simulate, type Faults } from '../../../src/take/simulate';
import { harbourNotes, harbourPlan, HUMAN, PARTIAL_MS } from '../practice-take';

const plan = harbourPlan();

function follow(faults: Faults) {
  const read = readStrokes(simulate(harbourNotes(12), faults, 3).messages, GENERAL_MIDI);
  const slips = slipsInTake(plan, read, GENERAL_MIDI);
  return { read, slips, followed: followSlips(plan, read, GENERAL_MIDI, slips) };
}

describe('a take against the place that was played', () => {
  it('is none where the place was kept', () => {
    expect(follow(HUMAN)).toMatchObject({ slips: [], followed: undefined });
  });

  it.each([-5, -1, 1, 2, 7])('is as written though it slipped by %i partials', (partials) => {
    const lost = { afterCycles: 4, slipMs: partials * PARTIAL_MS };
    const { read, followed } = follow({ ...HUMAN, lostPlace: lost });
    const click = assess(plan, read.strokes, GENERAL_MIDI);
    expect(figuresOf(click.notes).asWritten).toBeLessThan(0.75);
    const figures = figuresOf(followed!.notes);
    expect(figures.asWritten).toBeGreaterThan(0.95);
    expect(Math.abs(figures.meanMs!)).toBeLessThan(2);
  });

  it('keeps the verdicts of what was played in place', () => {
    const lost = { afterCycles: 4, slipMs: PARTIAL_MS };
    const { read, slips, followed } = follow({ ...HUMAN, lostPlace: lost, missed: 0.05 });
    const before = ({ due }: { due: { timeUs: number } }) => due.timeUs < slips[0]!.fromUs - 1e6;
    const click = assess(plan, read.strokes, GENERAL_MIDI);
    expect(followed!.notes.filter(before)).toEqual(click.notes.filter(before));
  });
});
