import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { breakLines } from '../../src/notation/break-lines';
import { scoreContent } from '../../src/notation/score-columns';
import { scoreLines } from '../../src/notation/score-lines';
import { phraseOf } from '../phrase/phrase-of';

describe('lines', () => {
  const columns = (partials: number, start = 0, subdivision = 4, barPartials = 16) =>
    Array.from({ length: partials }, (_, i) => ({
      partial: start + i,
      onBeat: (start + i) % subdivision === 0,
      onBar: (start + i) % barPartials === 0,
    }));
  const lengths = (spans: readonly { from: number; to: number }[]) =>
    spans.map(({ from, to }) => to - from);

  it.each([
    ['all in one', 20, 24, [20]],
    ['whole bars', 20, 16, [16, 4]],
    ['bars that do not fit, evenly by beats', 16, 12, [8, 8]],
    ['two bars a line', 64, 40, [32, 32]],
    ['beats that do not fit', 4, 3, [2, 2]],
  ])('%s', (_, partials, capacity, expected) => {
    expect(lengths(breakLines(columns(partials), capacity))).toEqual(expected);
  });

  it('lawEveryColumnOnce: lines hold every column once, in order, and never more than fit', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 512 }),
        fc.nat(30),
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: 1, max: 12 }),
        (partials, start, capacity, subdivision) => {
          const spans = breakLines(
            columns(partials, start, subdivision, subdivision * 4),
            capacity,
          );
          expect(spans[0]!.from).toBe(0);
          expect(spans.at(-1)!.to).toBe(partials);
          spans.forEach(({ from, to }, i) => {
            if (i > 0) expect(from).toBe(spans[i - 1]!.to);
            expect(to - from).toBeGreaterThan(0);
            expect(to - from).toBeLessThanOrEqual(capacity);
          });
        },
      ),
    );
  });

  it('a tuplet has its number once a beat, with a bracket where no beam holds it', () => {
    const content = scoreContent(phraseOf({ subdivision: 3, grouping: 'R L L R - L' }), 1);
    const { tuplets } = scoreLines(content, 24)[0]!;
    expect(tuplets).toEqual([
      { number: 3, fromColumn: 0, toColumn: 2, bracket: false },
      { number: 3, fromColumn: 3, toColumn: 5, bracket: true },
    ]);
  });
});
