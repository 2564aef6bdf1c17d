import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { acrossBar } from '../../src/notation/across-bar';
import { scoreContent } from '../../src/notation/score-columns';
import { soundingColumn } from '../../src/notation/sounding-column';
import { expand } from '../../src/phrase/layers/expand';
import { arbitraryPhrase } from '../phrase/arbitrary-phrase';
import { layeredPhrase } from '../phrase/phrase-of';
import { runCount } from '../run-count';

describe('the column of a score line that sounds', () => {
  it('lawMarksWhatSounds: at the onset of a note of the target it is the column of that note', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        const layer = phrase.layers.length;
        const content = scoreContent(phrase, layer);
        const across = acrossBar(phrase, layer);
        for (const note of expand(phrase, layer, { bars: 4 })) {
          const column = soundingColumn(note.onset.valueOf(), content, across);
          expect(column === undefined ? undefined : content.columns[column]!.position).toBe(
            note.position,
          );
        }
      }),
      { numRuns: runCount(40) },
    );
  });

  it('goes through pickup and cycle, and has none ahead of the pickup', () => {
    const phrase = layeredPhrase({ grouping: 'R L K', meter: '2/4' }, [
      { pickup: [{ limb: 'L', partialsBefore: 1 }] },
    ]);
    const at = (beat: number) =>
      soundingColumn(beat, scoreContent(phrase, 2), acrossBar(phrase, 2));
    expect([-0.5, -0.25, -0.01, 0, 0.25, 0.74, 0.75].map(at)).toEqual([
      undefined,
      0,
      0,
      1,
      2,
      3,
      1,
    ]);
  });

  it('has none before a cycle that starts later, nor between pickup and that start', () => {
    const phrase = layeredPhrase({ grouping: 'R L K' }, [{ displace: 2 }]);
    const at = (beat: number) =>
      soundingColumn(beat, scoreContent(phrase, 2), acrossBar(phrase, 2));
    expect([0, 0.25, 0.5, 1, 1.25].map(at)).toEqual([undefined, undefined, 0, 2, 0]);
  });
});
