import { describe, expect, it } from 'vitest';
import { gateWords } from '../../src/coach/gate-words';
import type { GateReport } from '../../src/score/trials';

const gate: GateReport = {
  passed: false,
  threshold: 0.85,
  wrongPass: 0.04,
  asWritten: undefined,
  lowerBound: undefined,
  certainty: 0,
  notes: 0,
  right: 0,
  extras: 0,
  cycles: 0,
  bound: 'all notes',
  ownLack: undefined,
  cleanCyclesToPass: 0,
};
const NOT_COME = { right: 0, wrong: 0, of: 2 };

describe('the gate in words', () => {
  it.each<[Partial<GateReport>, number | undefined, string]>([
    [{}, undefined, 'To pass: more clean cycles than can be told.'],
    [{}, 3, 'To pass: about three clean cycles.'],
    [{ notes: 20 }, 1, 'To pass: about one more clean cycle.'],
    [
      { notes: 20, ownLack: { pickup: NOT_COME, notes: NOT_COME, positions: [] } },
      2,
      'To pass: about two more clean cycles.',
    ],
    [
      {
        notes: 80,
        ownLack: { pickup: { right: 0, wrong: 2, of: 2 }, notes: undefined, positions: [] },
      },
      0,
      'To pass: the pickup at the next start (0 of 2 right).',
    ],
    [
      {
        notes: 80,
        ownLack: {
          pickup: { right: 1, wrong: 1, of: 2 },
          notes: { right: 5, wrong: 3, of: 8 },
          positions: [4],
        },
      },
      2,
      'To pass: about two more clean cycles, the pickup at the next start (1 of 2 right), what this layer adds (5 of the last 8 right) and position 4 (wrong every time).',
    ],
    [
      { notes: 80, ownLack: { pickup: undefined, notes: undefined, positions: [4, 9] } },
      1,
      'To pass: about one more clean cycle and positions 4 and 9 (wrong every time).',
    ],
    [
      { passed: true, notes: 60, right: 60, bound: undefined },
      0,
      'Passed: 60 of 60 notes as written.',
    ],
    [
      { passed: true, notes: 60, right: 58, extras: 1, bound: undefined },
      0,
      'Passed: 58 of 60 notes as written, 1 extra stroke.',
    ],
  ])('%o with %d cycles', (some, cycles, words) => {
    expect(gateWords({ ...gate, ...some, cleanCyclesToPass: cycles })).toBe(words);
  });

  it('asks for the place first where it is lost, and speaks of nothing that is wrong for it', () => {
    const positions = { pickup: undefined, notes: undefined, positions: [4, 9] };
    const report = { ...gate, notes: 80, ownLack: positions };
    expect(gateWords(report, true, true)).toBe('To pass: find the place again first.');
    const passed = { ...gate, passed: true, notes: 60, right: 60 };
    expect(gateWords(passed, true, true)).toBe('Passed: 60 of 60 notes as written.');
  });

  it('says of what nobody played that it does not count', () => {
    expect(gateWords({ ...gate, passed: true, notes: 60, right: 60 }, false)).toBe(
      'Enough to pass: 60 of 60 notes as written. Only what you play counts.',
    );
  });
});
