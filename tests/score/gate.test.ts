import { describe, expect, it } from 'vitest';
import { cleanCyclesToPass, gate, gateOf, type CycleTally } from '../../src/score/gate';
import type { JudgedNote } from '../../src/score/judged-note';
import { answer, due, extra, judgement, type NoteParts } from './cases';

const cycle = (notes: number, faults = 0, extras = 0): CycleTally => ({
  notes,
  asWritten: notes - faults,
  extras,
});
const cycles = (count: number, one: CycleTally) => Array.from({ length: count }, () => one);

/** Cycles of ten notes 100 ms apart, the first `faults` of each missed. */
const played = (faults: readonly number[], parts: NoteParts = {}, fromMs = 0): JudgedNote[] =>
  faults.flatMap((missed, c) =>
    Array.from({ length: 10 }, (_, i) =>
      answer(
        due(fromMs + c * 1000 + i * 100, { cycle: c + 1, position: i + 1, ...parts }),
        i < missed ? undefined : { offsetMs: 0 },
      ),
    ),
  );

describe('the gate over counted cycles', () => {
  // Bounds by Wilson's formula computed elsewhere: 22/22 0.8513, 21/21 0.8454, 57/60 0.8630, 56/60 0.8407.
  it.each([
    ['22 notes as written', [cycle(11), cycle(11)], true],
    ['21 notes as written', [cycle(11), cycle(10)], false],
    ['three faults in 60', [cycle(20, 3), cycle(20), cycle(20)], true],
    ['four faults in 60', [cycle(20, 4), cycle(20), cycle(20)], false],
    ['three extra strokes beside 60 as written', [cycle(20, 0, 3), cycle(20), cycle(20)], true],
    ['eight extra strokes beside 60 as written', [cycle(20, 0, 8), cycle(20), cycle(20)], false],
    ['old faults outside the window', [cycle(20, 20), ...cycles(3, cycle(20))], true],
    ['the window takes whole cycles: 63 notes', [cycle(21, 4), cycle(21), cycle(21)], false],
    ['one long cycle is not enough of a window', [cycle(70, 30), cycle(70)], false],
    ['nothing', [], false],
  ])('%s', (_, tallies, passed) => {
    expect(gateOf(tallies).passed).toBe(passed);
  });

  it('tells the window it looked at', () => {
    expect(gateOf([cycle(20, 20), cycle(20, 1), cycle(20), cycle(20, 0, 1)])).toMatchObject({
      notes: 60,
      extras: 1,
      cycles: 3,
      threshold: 0.85,
      asWritten: 59 / 61,
      tallies: [cycle(20, 1), cycle(20), cycle(20, 0, 1)],
    });
    expect(gateOf([cycle(2, 0, 3)]).asWritten).toBe(2 / 5);
  });

  it('leaves undefined what nothing supports', () => {
    const { asWritten, lowerBound, passed } = gateOf([]);
    expect([asWritten, lowerBound, passed]).toEqual([undefined, undefined, false]);
  });

  it('lets a stricter threshold be reached: 0.95 takes 73 notes', () => {
    expect(gateOf(cycles(14, cycle(5)), 0.95).passed).toBe(false);
    expect(gateOf(cycles(15, cycle(5)), 0.95).passed).toBe(true);
  });

  it('passes at its threshold, and not a hair above it', () => {
    const { lowerBound } = gateOf(cycles(3, cycle(20)));
    expect(gateOf(cycles(3, cycle(20)), lowerBound).passed).toBe(true);
    expect(gateOf(cycles(3, cycle(20)), lowerBound! + 1e-12).passed).toBe(false);
  });

  it.each([
    ['60 notes are a window', [cycle(9), cycle(20), cycle(20), cycle(20)], 3],
    ['59 are not', [cycle(9), cycle(20), cycle(20), cycle(19)], 4],
    ['nor is one cycle of 60', [cycle(9), cycle(9), cycle(60)], 2],
  ])('%s', (_, tallies, window) => {
    expect(gateOf(tallies).cycles).toBe(window);
  });

  it('takes a threshold up to 0.99', () => {
    expect(gateOf([], 0.99).threshold).toBe(0.99);
    expect(() => gateOf([], 0.9901)).toThrow('above 0 and at most 0.99, got 0.9901');
  });

  it.each([0, 1, -1, NaN])('refuses a threshold of %d', (threshold) => {
    expect(() => gateOf([], threshold)).toThrow(RangeError);
  });
});

describe('the gate over judged notes', () => {
  it('is not passed where nothing was due', () => {
    expect(gate(judgement([]))).toMatchObject({ passed: false, notes: 0, cycles: 0 });
  });

  it('takes the threshold it is given', () => {
    const half = judgement(played([5, 5, 5, 5, 5, 5]));
    expect(gate(half, { threshold: 0.3 })).toMatchObject({ threshold: 0.3, passed: true });
    expect(gate(half)).toMatchObject({ threshold: 0.85, passed: false });
  });

  it('needs time, voice and level as written', () => {
    const fault = (given: { offsetMs: number; velocity?: number; voice?: 'ride' }) => {
      const notes = played([0, 0, 0, 0, 0, 0]);
      const bad = notes.map((note, i) => (i % 10 < 1 ? answer(note.due, given) : note));
      return gate(judgement(bad)).asWritten;
    };
    expect(fault({ offsetMs: 0 })).toBe(1);
    expect(fault({ offsetMs: 50 })).toBe(0.9);
    expect(fault({ offsetMs: 0, voice: 'ride' })).toBe(0.9);
    expect(fault({ offsetMs: 0, velocity: 120 })).toBe(0.9);
  });

  it('looks at the last cycles of the layer played last only', () => {
    const first = played([9, 9, 9], { layer: 1, passage: 0 });
    const second = played([0, 0, 0], { layer: 2, passage: 1 }, 3000);
    expect(gate(judgement([...first, ...second]))).toMatchObject({
      notes: 30,
      cycles: 3,
      asWritten: 1,
      passed: true,
    });
  });

  it('goes on through a change of tempo, whose cycles are counted anew', () => {
    const slow = played([0, 1], { layer: 2, passage: 1 }, 3000);
    const fast = played([0, 1], { layer: 2, passage: 2 }, 5000);
    const before = played([9], { layer: 1, passage: 0 });
    expect(gate(judgement([...before, ...slow, ...fast]))).toMatchObject({ notes: 40, cycles: 4 });
  });

  it('starts afresh when a layer is taken up again', () => {
    const notes = [
      ...played([9, 9], { layer: 2, passage: 0 }),
      ...played([0], { layer: 1, passage: 1 }, 2000),
      ...played([0, 0], { layer: 2, passage: 2 }, 3000),
    ];
    expect(gate(judgement(notes))).toMatchObject({ notes: 20, asWritten: 1 });
  });

  it('counts a pickup with the first cycle', () => {
    const pickup = answer(due(-100, { cycle: 0, position: -1, bar: 0 }), undefined);
    expect(gate(judgement([pickup, ...played([0, 0])])).tallies).toEqual([
      { notes: 11, asWritten: 10, extras: 0 },
      { notes: 10, asWritten: 10, extras: 0 },
    ]);
  });

  it('counts extra strokes with the cycle they fall in, and none of the count-in', () => {
    const extras = [extra(-101), extra(-100), extra(450), extra(1240), extra(2500)];
    expect(gate(judgement(played([0, 0]), extras)).tallies.map((t) => t.extras)).toEqual([2, 2]);
  });

  it('leaves extra strokes of an earlier layer out', () => {
    const notes = [
      ...played([0], { layer: 1, passage: 0 }),
      ...played([0], { layer: 2, passage: 1 }, 1000),
    ];
    expect(gate(judgement(notes, [extra(940), extra(960), extra(1010)])).extras).toBe(2);
  });

  it('leaves out what is due after the last whole cycle', () => {
    const notes = played([0, 0, 9]);
    const options = { endUs: 2_000_000 };
    expect(gate(judgement(notes, [extra(2000), extra(1999)]), options)).toMatchObject({
      notes: 20,
      extras: 1,
      cycles: 2,
    });
  });
});

describe('clean cycles still needed', () => {
  it.each([
    ['nothing played, 5 notes a cycle: 25 notes are the first above 22', 5, gateOf([]), 5],
    ['nothing played, 11 notes a cycle', 11, gateOf([]), 2],
    ['nothing played, one note a cycle', 1, gateOf([]), 22],
    ['passed', 20, gateOf(cycles(3, cycle(20))), 0],
    [
      'four faults in the oldest of three cycles',
      20,
      gateOf([cycle(20, 4), ...cycles(2, cycle(20))]),
      1,
    ],
    [
      'four faults in the newest of three cycles',
      20,
      gateOf([...cycles(2, cycle(20)), cycle(20, 4)]),
      3,
    ],
    ['one cycle with six faults of 16, window of four', 16, gateOf([cycle(16, 6)]), 4],
  ])('%s', (_, notesPerCycle, soFar, needed) => {
    expect(cleanCyclesToPass(notesPerCycle, soFar)).toBe(needed);
  });

  it('cannot be told of a cycle without notes', () => {
    expect(() => cleanCyclesToPass(0, gateOf([]))).toThrow('a cycle needs at least one note');
  });

  it('is kept by playing them', () => {
    const soFar = [cycle(7, 3, 1), cycle(7, 0, 2), cycle(7, 5)];
    const needed = cleanCyclesToPass(7, gateOf(soFar));
    expect(gateOf([...soFar, ...cycles(needed - 1, cycle(7))]).passed).toBe(false);
    expect(gateOf([...soFar, ...cycles(needed, cycle(7))]).passed).toBe(true);
  });
});
