import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { takeRow, sumOfRows } from '../../src/coach/take-row';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { boundariesOf } from '../../src/kit/boundaries-of';
import { timedNotes } from '../../src/match/timed-notes';
import { assessMessages } from '../../src/score/assess';
import { figuresOf } from '../../src/score/figures';
import { simulate } from '../../src/take/simulate';
import { steadyTempo } from '../../src/time/tempo';
import { phraseOf } from '../phrase/phrase-of';
import { runCount } from '../run-count';

const phrase = phraseOf({ grouping: 'R L R K L', cycle: 10 });
const boundaries = (pad: number) => boundariesOf(GENERAL_MIDI, pad);

function played(seed: number, seconds: number, biasMs: number) {
  const plan = {
    ...{ phrase, passages: [{ fromBar: 1, layer: 1 }], tempo: steadyTempo(90), windows: {} },
  };
  const due = timedNotes(plan, seconds * 1e6);
  const faults = { biasMs, spreadMs: 15, missed: 0.1, extra: 0.1, wrongVoices: 0.1 };
  const { judgement } = assessMessages(plan, simulate(due, faults, seed).messages, GENERAL_MIDI);
  return { row: takeRow(plan, judgement, boundaries), judgement };
}

describe('sumOfRows', () => {
  it('lawRowsEqualNotes: says of takes what figures say of all their notes', () => {
    const takes = fc.array(
      fc.record({
        seed: fc.nat(1e6),
        seconds: fc.integer({ min: 0, max: 6 }),
        biasMs: fc.integer({ min: -25, max: 25 }),
      }),
      { minLength: 1, maxLength: 5 },
    );
    fc.assert(
      fc.property(takes, (list) => {
        const all = list.map(({ seed, seconds, biasMs }) => played(seed, seconds, biasMs));
        const sum = sumOfRows(all.map(({ row }) => row));
        const figures = figuresOf(all.flatMap(({ judgement }) => judgement.notes));
        expect(sum).toMatchObject({
          notes: figures.count,
          inTime: figures.inTime,
          early: figures.early,
          late: figures.late,
          wrongVoice: figures.wrongVoice,
          missed: figures.missed,
          timed: figures.timed,
          extras: all.reduce((count, { judgement }) => count + judgement.extras.length, 0),
        });
        if (figures.asWritten !== undefined)
          expect(sum.asWritten / sum.notes).toBeCloseTo(figures.asWritten, 9);
        const near = (found: number | undefined, expected: number | undefined) =>
          expected === undefined
            ? expect(found).toBeUndefined()
            : expect(found).toBeCloseTo(expected, 6);
        near(sum.offsetMeanMs, figures.meanMs);
        near(sum.offsetSpreadMs, figures.spreadMs);
      }),
      { numRuns: runCount(40) },
    );
  });

  it('has no figures without notes', () => {
    expect(sumOfRows([])).toMatchObject({
      ...{ notes: 0, offsetMeanMs: undefined, offsetSpreadMs: undefined },
    });
  });
});
