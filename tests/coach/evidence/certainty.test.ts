import { describe, expect, it } from 'vitest';
import { certaintyOf } from '../../../src/coach/evidence/certainty';
import { findings } from '../../../src/coach/findings';
import {
  BOUNDARIES,
  harbourNotes,
  harbourPlan,
  HUMAN,
  judged,
  later,
  play,
} from '../practice-take';

describe('the certainty of a mean', () => {
  it("is Student's t interval about it, of so many strokes and bars", () => {
    const notes = harbourNotes(3);
    // t(0.975, 15) = 2.131: table of Student's t, NIST/SEMATECH e-Handbook 1.3.6.7.2.
    const { strokes, bars, interval } = certaintyOf(notes, { mean: 12, error: 1.5, df: 15 });
    expect([strokes, bars]).toEqual([notes.length, 3]);
    expect(interval.lower).toBeCloseTo(12 - 2.131 * 1.5, 2);
    expect(interval.upper).toBeCloseTo(12 + 2.131 * 1.5, 2);
  });

  it('holds what was dialled in about 95 of 100 takes', () => {
    const plan = harbourPlan();
    const notes = harbourNotes(16);
    const between = Array.from({ length: 60 }, (_, seed) => {
      const strokes = play(notes, HUMAN, seed + 1, (stroke, { note }) =>
        note.limb === 'L' ? later(stroke, 12) : stroke,
      );
      const [first] = findings(plan, judged(notes, strokes), () => BOUNDARIES);
      expect(first).toMatchObject({ code: 'limb off' });
      const [, least, most] = /between ([\d.]+) and ([\d.]+) ms behind/.exec(first!.detail!)!;
      return [Number(least), Number(most)] as const;
    });
    const holding = between.filter(([least, most]) => least <= 12 && most >= 12);
    // 60 draws at 0.95: fewer than 50 come with a chance of 0.0003.
    expect(holding.length).toBeGreaterThanOrEqual(50);
    for (const [least, most] of between) expect(most - least).toBeLessThan(7);
  });
});
