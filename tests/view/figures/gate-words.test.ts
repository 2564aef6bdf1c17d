import { describe, expect, it } from 'vitest';
import { cleanCyclesToPass, gateOf } from '../../../src/score/gate';
import { gateWords } from '../../../src/view/figures/gate-words';

const clean = (notes: number) => ({ notes, asWritten: notes, extras: 0 });
const NBSP = '\u00a0';

describe('the gate in words', () => {
  it('says how many clean cycles it takes before anything was played', () => {
    const gate = gateOf([]);
    expect(gateWords(gate, cleanCyclesToPass(11, gate))).toBe(
      `Passes at 85${NBSP}% with 95 % certainty: about two clean cycles.`,
    );
  });

  it('says how many more after some', () => {
    const gate = gateOf([clean(11)]);
    expect(gateWords(gate, cleanCyclesToPass(11, gate))).toBe(
      `Passes at 85${NBSP}% with 95 % certainty: about one more clean cycle.`,
    );
  });

  it('says by how much it was passed', () => {
    const gate = gateOf([clean(30), clean(30)]);
    // Wilson 1927, all 60 of 60: 60 / (60 + 1.96²) = 0.9398.
    expect(gateWords(gate, 0)).toBe(
      `Passed: 100${NBSP}% as written, with 95 % certainty at least 93${NBSP}%; 85${NBSP}% was asked.`,
    );
  });
});
