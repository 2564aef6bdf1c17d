import { describe, expect, it } from 'vitest';
import type { Plan } from '../../src/match/plan';
import { countingBars } from '../../src/score/counting-bars';
import { steadyTempo } from '../../src/time/tempo';
import { layeredPhrase } from '../phrase/phrase-of';

const PLAN: Plan = {
  phrase: layeredPhrase({ grouping: 'R L' }),
  passages: [{ fromBar: 1, layer: 1 }],
  tempo: steadyTempo(90),
  windows: {},
};
/** Without a click: bars 3, 6 and 7, 10 and 11. */
const SILENT = { sounding: 2, silent: 1, growBy: 1, most: 2 };
const UP_TO_8 = [0, 1, 2, 3, 4, 5, 6, 7, 8];

describe('bars that count for the gate', () => {
  it('are all but those left out', () => {
    expect(UP_TO_8.filter(countingBars(PLAN))).toEqual(UP_TO_8);
    expect(UP_TO_8.filter(countingBars(PLAN, [2, 5]))).toEqual([0, 1, 3, 4, 6, 7, 8]);
  });

  it('have a click, however often they are asked of', () => {
    const counts = countingBars({ ...PLAN, silentBars: SILENT }, [5]);
    expect(UP_TO_8.filter(counts)).toEqual([0, 1, 2, 4, 8]);
    expect(UP_TO_8.filter(counts)).toEqual([0, 1, 2, 4, 8]);
  });
});
