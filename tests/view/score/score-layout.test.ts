import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { scoreContent } from '../../../src/notation/score-columns';
import { noteZones } from '../../../src/view/score/note-zones';
import { scoreLayout } from '../../../src/view/score/score-layout';
import { phraseOf } from '../../phrase/phrase-of';
import { runCount } from '../../run-count';

describe('where the parts of a score line stand', () => {
  it('lawFits: the last column ends within the width, and nothing is above or below its line', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 300, max: 1600 }),
        fc.integer({ min: 1, max: 80 }),
        fc.boolean(),
        (width, cycle, interactive) => {
          const content = scoreContent(phraseOf({ grouping: 'R L R L K', cycle }), 1);
          const layout = scoreLayout({ content, width, interactive });
          for (const { from, to } of layout.lines)
            expect(layout.left + (to - from) * layout.slot).toBeLessThanOrEqual(width);
          expect(layout.letterY).toBeLessThan(layout.height);
          expect(layout.countY).toBeGreaterThan(0);
          // WCAG 2.2 SC 2.5.8: a target of at least 24 CSS pixels.
          if (interactive) expect(layout.slot).toBeGreaterThanOrEqual(24);
        },
      ),
      { numRuns: runCount(60) },
    );
  });

  it('a note of a column is touched round its head and on its letter, and no two overlap', () => {
    const layout = { middleY: 100, space: 10, beamY: 40, letterY: 150, letterLine: 26 };
    const zones = noteZones([{ place: 5 }, { place: 1 }, { place: -3 }], layout).flat();
    const sorted = [...zones].sort((a, b) => a.top - b.top);
    for (let i = 1; i < sorted.length; i++)
      expect(sorted[i]!.top).toBeGreaterThanOrEqual(sorted[i - 1]!.bottom);
    expect(noteZones([{ place: 1 }], layout)).toHaveLength(1);
    expect(noteZones([{ place: 1 }], layout)[0]).toHaveLength(1);
  });
});
