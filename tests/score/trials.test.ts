import { describe, expect, it } from 'vitest';
import type { Plan } from '../../src/match/plan';
import { gateOfTake, trialsOf, TrialWalk } from '../../src/score/trials';
import type { JudgedNote } from '../../src/score/judged-note';
import { beats } from '../../src/time/beats';
import { tempoMap, type TempoChange } from '../../src/time/tempo';
import { layeredPhrase } from '../phrase/phrase-of';
import { answer, due, extra, judgement, type NoteParts } from './cases';

const phrase = layeredPhrase(
  { grouping: 'R L R L R L R L R L' },
  [{ where: { positions: [1] }, set: { level: 'accent' } }],
  [{ pickup: [{ partialsBefore: 1, limb: 'L' }] }],
);
/** Notes 100 ms apart: at 150 bpm that is a quarter of a beat. */
const planOf = (layers: readonly number[], tempos: readonly TempoChange[] = []): Plan => ({
  phrase,
  passages: layers.map((layer, i) => ({ fromBar: 1 + i, layer })),
  tempo: tempoMap([{ fromBeat: beats(0), bpm: 150 }, ...tempos]),
  windows: {},
});

/** Cycles of ten notes 100 ms apart, the first `faults` of each missed. */
const played = (faults: readonly number[], parts: NoteParts = {}, fromMs = 0): JudgedNote[] =>
  faults.flatMap((missed, c) =>
    Array.from({ length: 10 }, (_, i) =>
      answer(
        due(fromMs + c * 1000 + i * 100, {
          cycle: c + 1,
          position: i + 1,
          bar: Math.floor(fromMs / 1600) + 1 + c,
          layers: i === 0 ? [1, 2] : [1],
          ...parts,
        }),
        i < missed ? undefined : { offsetMs: 0 },
      ),
    ),
  );

describe('the trials of a take', () => {
  it('begin with each layer, and with a layer that is taken up again', () => {
    const notes = [
      ...played([9, 9], { layer: 2, passage: 0 }),
      ...played([0], { layer: 1, passage: 1 }, 2000),
      ...played([0, 0], { layer: 2, passage: 2 }, 3000),
    ];
    const trials = trialsOf(planOf([2, 1, 2]), judgement(notes));
    expect(trials.map(({ layer, trial: { gate } }) => [layer, gate.notes, gate.right])).toEqual([
      [2, 20, 2],
      [1, 10, 10],
      [2, 20, 20],
    ]);
  });

  it('go on through a passage of the same layer', () => {
    const notes = [
      ...played([0], { layer: 2, passage: 0 }),
      ...played([0], { layer: 2, passage: 1 }, 1000),
    ];
    expect(trialsOf(planOf([2, 2]), judgement(notes))).toHaveLength(1);
  });

  it.each([{ latePartials: 1 }, { latePartials: 0 }, { countInBars: 1 }])(
    'begin where the target has moved: %o',
    (moved) => {
      const notes = [
        ...played([5], { layer: 2, passage: 0 }),
        ...played([0], { layer: 2, passage: 1 }, 1000),
      ];
      const plan = planOf([2, 2]);
      const passages = [plan.passages[0]!, { ...plan.passages[1]!, ...moved }];
      const trials = trialsOf({ ...plan, passages }, judgement(notes));
      expect(trials.map(({ trial: { gate } }) => [gate.notes, gate.right])).toEqual([
        [10, 5],
        [10, 10],
      ]);
    },
  );

  it('begin at a change of tempo, with the note that is due there', () => {
    const notes = played([5, 0], { layer: 2 }).map((note) => note);
    const [before, after] = trialsOf(
      planOf([2], [{ fromBeat: beats(5, 2), bpm: 151 }]),
      judgement(notes),
    );
    expect(before).toMatchObject({ layer: 2, bpm: 150 });
    expect(before!.trial.gate).toMatchObject({ notes: 10, right: 5 });
    expect(after!.trial.gate).toMatchObject({ notes: 10, right: 10 });
  });

  it('begin where the player asks, and what was before does not count', () => {
    const notes = played([9, 0, 0], { layer: 2 });
    const at = (us: number) =>
      gateOfTake(planOf([2]), judgement(notes), { requestsUs: [us] }).notes;
    expect(at(1_000_000)).toBe(20);
    expect(at(1_000_001)).toBe(19);
    expect(at(9_000_000)).toBe(30);
  });

  it('begin in the order of time where the tempo changes and where the player asks', () => {
    const plan = planOf([2], [{ fromBeat: beats(5, 2), bpm: 151 }]);
    const trials = trialsOf(plan, judgement(played([0, 0, 0], { layer: 2 })), {
      requestsUs: [500_000, 2_500_000],
    });
    expect(trials.map(({ judgement: { notes } }) => notes.length)).toEqual([5, 5, 15, 5]);
  });

  it('begin with the pickup, not at bar 1 again', () => {
    const pickup = answer(due(-100, { cycle: 0, position: -1, bar: 0, layer: 3, layers: [3] }), {
      offsetMs: 0,
    });
    const notes = [pickup, ...played([0], { layer: 3 })];
    expect(trialsOf(planOf([3]), judgement(notes))).toMatchObject([{ fromBar: 0, toBar: 1 }]);
  });

  it('begin where the target moved in a passage of which nothing is due', () => {
    const notes = (...passages: readonly number[]) =>
      judgement(passages.flatMap((passage, i) => played([0], { layer: 2, passage }, i * 1000)));
    const plan = planOf([2, 2, 2, 2]);
    const moved = (which: number) => ({
      ...plan,
      passages: plan.passages.map((passage, i) =>
        i === which ? { ...passage, latePartials: 1 } : passage,
      ),
    });
    expect(trialsOf(moved(1), notes(0, 2))).toHaveLength(2);
    expect(trialsOf(moved(0), notes(0, 1))).toHaveLength(1);
    expect(trialsOf(moved(2), notes(0, 1))).toHaveLength(1);
  });

  it('ask what the player chose, and only the first goes on with what was before', () => {
    const notes = [
      ...played([0], { layer: 1, passage: 0 }),
      ...played([0], { layer: 2, passage: 1 }, 1000),
    ];
    const gates = (continues: boolean) =>
      trialsOf(planOf([1, 2]), judgement(notes), { threshold: 0.7, continues }).map(
        ({ trial: { gate } }) => [gate.threshold, gate.passed],
      );
    expect(gates(true)).toEqual([
      [0.7, true],
      [0.7, false],
    ]);
    expect(gates(false)).toEqual([
      [0.7, false],
      [0.7, false],
    ]);
  });

  it('hold their notes, and the extra strokes told with them', () => {
    const notes = [
      ...played([0], { layer: 1, passage: 0 }),
      ...played([0], { layer: 2, passage: 1 }, 1000),
    ];
    const extras = [extra(450), extra(1450)];
    const trials = trialsOf(planOf([1, 2]), judgement(notes, extras));
    expect(trials.map((trial) => trial.judgement)).toEqual([
      { notes: notes.slice(0, 10), extras: [extras[0]] },
      { notes: notes.slice(10), extras: [extras[1]] },
    ]);
  });

  it('go on two ways from where they are forked', () => {
    const all = judgement(played([0, 3, 9], { layer: 2 }), [extra(450), extra(1450), extra(2450)]);
    const options = { requestsUs: [1_500_000] };
    const walk = (to: number) => {
      const begun = new TrialWalk(planOf([2]), options);
      begun.add(all, 0, to);
      return begun;
    };
    const figures = ({ trials }: TrialWalk) =>
      trials.map(({ trial: { gate }, judgement: { notes, extras } }) => [
        gate.notes,
        gate.right,
        gate.extras,
        notes.length,
        extras.length,
      ]);
    expect(figures(walk(0).fork())).toEqual([]);
    for (const at of [5, 15, 20]) {
      const trunk = walk(at);
      const branch = trunk.fork();
      branch.add(all, at);
      expect(figures(trunk)).toEqual(figures(walk(at)));
      trunk.add(all, at);
      expect(figures(trunk)).toEqual(figures(branch));
      expect(figures(branch)).toEqual([
        [15, 12, 2, 15, 2],
        [15, 6, 1, 15, 1],
      ]);
    }
  });

  it('leave out bars that do not count, with their extra strokes', () => {
    const notes = played([0, 9, 0], { layer: 2 });
    const options = { leftOutBars: [2] };
    const take = judgement(notes, [extra(1450), extra(2450)]);
    expect(gateOfTake(planOf([2]), take, options)).toMatchObject({
      notes: 20,
      right: 20,
      extras: 1,
    });
  });

  it('count extra strokes with the note they are told with, and none of the count-in', () => {
    const notes = [
      ...played([0], { layer: 1, passage: 0 }),
      ...played([0], { layer: 2, passage: 1 }, 1000),
    ];
    const extras = [extra(-101), extra(-100), extra(940), extra(960), extra(5000)];
    const trials = trialsOf(planOf([1, 2]), judgement(notes, extras));
    expect(trials.map(({ trial }) => trial.gate.extras)).toEqual([2, 2]);
  });

  it('count as many extra strokes at one moment as a take may have', () => {
    const extras = Array.from({ length: 200_000 }, () => extra(450));
    const { extras: counted } = gateOfTake(planOf([1]), judgement(played([0]), extras));
    expect(counted).toBe(200_000);
  });

  it('leave out what is due after the last whole cycle', () => {
    const options = { endUs: 2_000_000 };
    const take = judgement(played([0, 0, 9]), [extra(2000), extra(1999)]);
    expect(gateOfTake(planOf([1]), take, options)).toMatchObject({
      notes: 20,
      extras: 1,
      cycles: 2,
    });
  });

  it('need time, voice and level as written', () => {
    const right = (given: { offsetMs: number; velocity?: number; voice?: 'ride' }) => {
      const notes = played([0]).map((note, i) => (i === 3 ? answer(note.due, given) : note));
      return gateOfTake(planOf([1]), judgement(notes)).right;
    };
    expect(right({ offsetMs: 0 })).toBe(10);
    expect(right({ offsetMs: 50 })).toBe(9);
    expect(right({ offsetMs: 0, voice: 'ride' })).toBe(9);
    expect(right({ offsetMs: 0, velocity: 120 })).toBe(9);
  });

  it('keep the pickup of their layer over a change of tempo', () => {
    const pickup = (isRight: boolean) =>
      answer(
        due(-100, { cycle: 0, position: -1, bar: 0, layer: 3, layers: [3] }),
        isRight ? { offsetMs: 0 } : undefined,
      );
    const cycles = played([0, 0, 0, 0, 0, 0, 0, 0], { layer: 3, layers: [1] });
    const plan = planOf([3], [{ fromBeat: beats(5, 2), bpm: 151 }]);
    const passed = (isRight: boolean) => gateOfTake(plan, judgement([pickup(isRight), ...cycles]));
    expect(passed(true)).toMatchObject({ passed: true, notes: 70 });
    expect(passed(false)).toMatchObject({
      passed: false,
      bound: 'own notes',
      ownLack: { pickup: { right: 0, wrong: 1, of: 1 } },
    });
  });

  it('of a layer that is silent tell no number of cycles', () => {
    const silent = layeredPhrase({ grouping: 'R L' }, [{ where: {}, set: { silent: true } }]);
    const plan = { ...planOf([2]), phrase: silent };
    const gate = gateOfTake(plan, judgement([]));
    expect(gate.cleanCyclesToPass).toBeUndefined();
  });

  it('of a take without a note: what the first layer asks', () => {
    expect(gateOfTake(planOf([2]), judgement([]))).toMatchObject({
      passed: false,
      notes: 0,
      cleanCyclesToPass: 6,
    });
  });
});
