import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  passesToGoal,
  planAfterCycle,
  planAt,
  planWords,
  type PlanState,
  type TempoPlan,
} from '../../src/coach/tempo-plan';
import { tempoSteps } from '../../src/coach/tempo-steps';

const bpms = fc.integer({ min: 30, max: 300 });
const ladders = fc.oneof(
  fc
    .record({
      start: bpms,
      goal: bpms,
      by: fc.integer({ min: 1, max: 30 }),
      growBy: fc.integer({ min: -10, max: 10 }),
    })
    .map(tempoSteps),
  fc.array(bpms, { minLength: 1, maxLength: 12 }),
);
const plans: fc.Arbitrary<TempoPlan> = fc.record({
  tempi: ladders,
  cycles: fc.integer({ min: 1, max: 10 }),
  backAfter: fc.integer({ min: 1, max: 4 }),
});
/** Each cycle by itself, and whether the gate lets the layer through with it. */
const playings = fc.array(fc.record({ isClean: fc.boolean(), isPassed: fc.boolean() }), {
  maxLength: 200,
});

const play = (plan: TempoPlan, played: readonly { isClean: boolean; isPassed: boolean }[]) => {
  const states: PlanState[] = [planAt(plan, plan.tempi[0]!)];
  for (const { isClean, isPassed } of played)
    states.push(planAfterCycle(plan, states.at(-1)!, isClean, isPassed));
  return states;
};

/** The rule as a player would keep it on paper: the marks of the cycles at each tempo, struck out with every decision. */
function onPaper(plan: TempoPlan, played: readonly { isClean: boolean; isPassed: boolean }[]) {
  const steps = [0];
  let step = 0;
  let marks: boolean[] = [];
  let bad = 0;
  let isOver = false;
  for (const { isClean, isPassed } of played) {
    if (!isOver && isPassed) {
      isOver = step === plan.tempi.length - 1;
      step = Math.min(step + 1, plan.tempi.length - 1);
      marks = [];
      bad = 0;
    } else if (!isOver) {
      marks.push(isClean);
      const possible = marks.filter(Boolean).length + (plan.cycles - marks.length);
      if (10 * possible < 8 * plan.cycles) {
        marks = [];
        bad++;
        if (bad === plan.backAfter) {
          step = Math.max(0, step - 1);
          bad = 0;
        }
      } else if (marks.length === plan.cycles) {
        marks = [];
        bad = 0;
      }
    }
    steps.push(step);
  }
  return steps;
}

describe('a tempo plan', () => {
  it('lawOnPaper: goes as it does when it is kept on paper', () => {
    fc.assert(
      fc.property(plans, playings, (plan, played) => {
        expect(play(plan, played).map(({ step }) => step)).toEqual(onPaper(plan, played));
      }),
    );
  });

  it('lawWithinBounds: never leaves its tempi, and moves by one of them at most', () => {
    fc.assert(
      fc.property(plans, playings, (plan, played) => {
        const steps = play(plan, played).map(({ step }) => step);
        steps.forEach((step, i) => {
          expect(plan.tempi[step]).toBeDefined();
          if (i > 0) expect(Math.abs(step - steps[i - 1]!)).toBeLessThanOrEqual(1);
        });
      }),
    );
  });

  it('lawCleanPlayer: who passes every time is at the goal after as many passes as it tells', () => {
    fc.assert(
      fc.property(plans, fc.integer({ min: 1, max: 6 }), (plan, cyclesToPass) => {
        let state = planAt(plan, plan.tempi[0]!);
        const told = passesToGoal(plan, state);
        let passes = 0;
        for (let cycle = 1; state.reason.kind !== 'reached'; cycle++) {
          const isPassed = cycle % cyclesToPass === 0;
          if (isPassed) passes++;
          state = planAfterCycle(plan, state, true, isPassed);
        }
        expect(passes).toBe(told);
        expect(plan.tempi[state.step]).toBe(plan.tempi.at(-1));
        expect(passesToGoal(plan, state)).toBe(0);
        expect(planAfterCycle(plan, state, false, false)).toBe(state);
      }),
    );
  });

  it('lawFailingPlayer: who fails every cycle is back at the start, and stays', () => {
    fc.assert(
      fc.property(plans, bpms, (plan, bpm) => {
        const most = plan.tempi.length * plan.cycles * plan.backAfter;
        let state = planAt(plan, bpm);
        for (let cycle = 0; cycle < most; cycle++)
          state = planAfterCycle(plan, state, false, false);
        expect(state.step).toBe(0);
      }),
    );
  });

  it.each([
    // Of five cycles four have to pass, of four all, of ten eight.
    [5, 1, false],
    [5, 2, true],
    [4, 1, true],
    [10, 2, false],
    [10, 3, true],
    [1, 1, true],
  ])('of %d cycles with %d that fail: a step back is %s', (cycles, faults, goesBack) => {
    const plan = { tempi: [80, 90], cycles, backAfter: 1 };
    let state = planAt(plan, 90);
    for (let i = 0; i < faults; i++) state = planAfterCycle(plan, state, false, false);
    expect(state.step).toBe(goesBack ? 0 : 1);
  });

  it.each([
    [1, 0],
    [2, 1],
  ])('goes back after %d bad look, not before', (backAfter, step) => {
    const plan = { tempi: [80, 90], cycles: 2, backAfter };
    expect(planAfterCycle(plan, planAt(plan, 90), false, false).step).toBe(step);
  });

  it('forgets bad looks with a good one', () => {
    const plan = { tempi: [80, 90], cycles: 2, backAfter: 2 };
    const cycles = [false, true, true, false];
    const end = cycles.reduce(
      (state, isClean) => planAfterCycle(plan, state, isClean, false),
      planAt(plan, 90),
    );
    expect(end).toMatchObject({ step: 1, fails: 1 });
  });

  it('begins at a tempo of its own, and else at its start', () => {
    const plan = { tempi: [80, 90, 100], cycles: 5, backAfter: 1 };
    expect([90, 91, 100, 40].map((bpm) => planAt(plan, bpm).step)).toEqual([1, 0, 2, 0]);
  });
});

describe('the steps from a start to a goal', () => {
  const steps = fc.record({
    start: bpms,
    goal: bpms,
    by: fc.integer({ min: 1, max: 60 }),
    growBy: fc.integer({ min: -20, max: 20 }),
  });

  it('lawOneWay: begin and end there, go one way only and never beyond', () => {
    fc.assert(
      fc.property(steps, ({ start, goal, by, growBy }) => {
        const tempi = tempoSteps({ start, goal, by, growBy });
        expect([tempi[0], tempi.at(-1)]).toEqual([start, goal]);
        const sorted = [...new Set(tempi)].sort((a, b) => (start <= goal ? a - b : b - a));
        expect(tempi).toEqual(sorted);
      }),
    );
  });

  it('lawLargerOrSmaller: every step but the last is so much larger than the one before', () => {
    fc.assert(
      fc.property(steps, ({ start, goal, by, growBy }) => {
        const tempi = tempoSteps({ start, goal, by, growBy });
        const sizes = tempi.slice(1, -1).map((bpm, i) => Math.abs(bpm - tempi[i]!));
        sizes.forEach((size, i) => expect(size).toBe(Math.max(1, by + i * growBy)));
      }),
    );
  });

  it.each([
    [{ start: 80, goal: 100, by: 5, growBy: 0 }, [80, 85, 90, 95, 100]],
    [{ start: 80, goal: 100, by: 2, growBy: 2 }, [80, 82, 86, 92, 100]],
    [{ start: 80, goal: 101, by: 8, growBy: -3 }, [80, 88, 93, 95, 96, 97, 98, 99, 100, 101]],
    [{ start: 100, goal: 90, by: 4, growBy: 0 }, [100, 96, 92, 90]],
    [{ start: 90, goal: 90, by: 4, growBy: 0 }, [90]],
  ])('%o', (from, tempi) => {
    expect(tempoSteps(from)).toEqual(tempi);
  });
});

describe('why the tempo is what it is', () => {
  const plan = { tempi: [84, 88, 92], cycles: 5, backAfter: 1 };
  const at = (step: number, reason: PlanState['reason']) =>
    planWords(plan, { step, cycles: 0, clean: 0, fails: 0, reason });

  it.each([
    [at(0, { kind: 'begins' }), 'Plan: 84, to 92 in 2 steps.'],
    [at(1, { kind: 'begins' }), 'Plan: 88, to 92 in 1 step.'],
    [at(2, { kind: 'begins' }), 'Plan: 92, the goal.'],
    [at(1, { kind: 'on' }), 'On to 88: passed at 84.'],
    [at(1, { kind: 'back', clean: 2, of: 4 }), 'Back to 88: two of four cycles passed.'],
    [at(1, { kind: 'back', clean: 0, of: 2 }), 'Back to 88: none of two cycles passed.'],
    [
      at(2, { kind: 'stays', clean: 4, of: 5 }),
      'Still 92: four of five cycles passed, the layer not yet.',
    ],
    // Another look may fail before it goes back.
    [at(2, { kind: 'stays', clean: 3, of: 5 }), 'Still 92: three of five cycles passed.'],
    [
      at(0, { kind: 'stays at start', clean: 0, of: 1 }),
      'Still 84, the start: none of one cycle passed.',
    ],
    [at(2, { kind: 'reached' }), 'Goal reached: passed at 92.'],
  ])('%s', (words, expected) => {
    expect(words).toBe(expected);
    expect(words.split(' ').length).toBeLessThanOrEqual(12);
  });
});
