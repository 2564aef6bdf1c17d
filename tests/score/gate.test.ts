import { describe, expect, it } from 'vitest';
import { Trial } from '../../src/score/gate';
import type { GateOptions } from '../../src/score/gate-options';
import { OwnNotes } from '../../src/score/own-notes';
import { due } from './cases';

/** A trial of a layer that adds nothing: x is a note as written, - one that is not, + an extra stroke. */
function trial(text: string, options?: GateOptions): Trial {
  const played = new Trial(new OwnNotes({ pickup: 0, notes: false }), options);
  [...text].forEach((sign, i) =>
    sign === '+'
      ? played.addExtra()
      : played.add(
          due(i, { cycle: 1 + Math.floor(i / 10), position: (i % 10) + 1, layers: [1] }).note,
          2,
          sign === 'x',
        ),
  );
  return played;
}
const clean = (notes: number) => 'x'.repeat(notes);

describe('the gate', () => {
  // Computed apart from the program: ln(1 / 0.04) = 3.2189; a note adds ln(0.90 / 0.80) / 2 = 0.05889, a fault takes
  // ln(0.20 / 0.10) / 2 = 0.34657, which is 5.9 notes.
  it.each([
    ['', false],
    [clean(54), false],
    [clean(55), true],
    [`-${clean(60)}`, false],
    [`-${clean(61)}`, true],
    [`+${clean(60)}`, false],
    [`+${clean(61)}`, true],
    // However bad it was before: never more than 7 / 0.05889 = 118.9 notes behind.
    [`${'-'.repeat(500)}${clean(173)}`, false],
    [`${'-'.repeat(500)}${clean(174)}`, true],
    // Once passed it stays passed.
    [`${clean(55)}${'-'.repeat(30)}`, true],
  ])('over %j', (text, passed) => {
    expect(trial(text).hasPassed).toBe(passed);
    expect(trial(text).gate.passed).toBe(passed);
  });

  it.each<[GateOptions, number]>([
    // ln(1 / 0.2) = 1.6094; ln(1 / 0.005) = 5.2983.
    [{ wrongPass: 0.2 }, 28],
    [{ wrongPass: 0.04 }, 55],
    [{ wrongPass: 0.005 }, 90],
    // 0.97 stands between 0.96 and 0.98: ln(0.98 / 0.96) / 2 = 0.010310.
    [{ threshold: 0.97 }, 313],
    [{ threshold: 0.7 }, 45],
  ])('with %o takes %d notes without a fault', (options, notes) => {
    expect(trial('', options).cleanNotesToPass).toBe(notes);
    expect(trial(clean(notes - 1), options).hasPassed).toBe(false);
    expect(trial(clean(notes), options).hasPassed).toBe(true);
  });

  it('tells what it looked at', () => {
    expect(trial(`xx-+${clean(20)}`).gate).toMatchObject({
      passed: false,
      threshold: 0.85,
      wrongPass: 0.04,
      asWritten: 22 / 24,
      notes: 23,
      right: 22,
      extras: 1,
      cycles: 3,
      bound: 'all notes',
      ownLack: undefined,
    });
    expect(trial('').gate).toMatchObject({ asWritten: undefined, certainty: 0, cycles: 0 });
    expect(trial('----').gate.certainty).toBe(0);
    expect(trial(clean(30)).gate.certainty).toBeCloseTo(0.5489, 3);
    expect(trial(clean(70)).gate).toMatchObject({ certainty: 1, bound: undefined });
  });

  it.each([0, 1, -1, 0.971, NaN])('refuses a threshold of %d', (threshold) => {
    expect(() => trial('', { threshold })).toThrow(
      `a threshold is above 0 and at most 0.97, got ${threshold}`,
    );
  });

  it.each([0, 1, -1, NaN])('refuses a chance of a wrong pass of %d', (wrongPass) => {
    expect(() => trial('', { wrongPass })).toThrow(RangeError);
  });

  it('is not passed while what the layer adds is wrong, and names it', () => {
    const played = new Trial(new OwnNotes({ pickup: 0, notes: true }));
    const cycle = (number: number, isOwnRight: boolean) => {
      for (let position = 1; position <= 20; position++) {
        const isOwn = position === 5;
        const { note } = due(0, { cycle: number, position, layers: isOwn ? [1, 2] : [1] });
        played.add(note, 2, !isOwn || isOwnRight);
      }
    };
    for (let number = 1; number <= 40; number++) cycle(number, false);
    expect(played.gate).toMatchObject({
      passed: false,
      bound: 'own notes',
      ownLack: { notes: { right: 0, wrong: 8, of: 8 }, positions: [5] },
    });
    for (let number = 41; number <= 45; number++) cycle(number, true);
    expect(played.hasPassed).toBe(false);
    cycle(46, true);
    expect(played.gate).toMatchObject({ passed: true, bound: undefined, ownLack: undefined });
  });
});

describe('clean cycles still needed', () => {
  const cycle = () =>
    Array.from({ length: 20 }, (_, i) => due(0, { cycle: 9, position: i + 1, layers: [1] }).note);

  it.each([
    ['', 3],
    [clean(20), 2],
    [clean(54), 1],
    [clean(55), 0],
    [`${'-'.repeat(500)}`, 9],
  ])('after %j', (text, cycles) => {
    expect(trial(text).cleanCyclesToPass(2, cycle)).toBe(cycles);
  });

  it('does not wait for a pickup, which no cycle brings', () => {
    const played = new Trial(new OwnNotes({ pickup: 1, notes: false }));
    expect(played.cleanCyclesToPass(2, cycle)).toBe(3);
    for (let i = 0; i < 3; i++) for (const note of cycle()) played.add(note, 2, true);
    expect(played.gate).toMatchObject({ passed: false, bound: 'own notes' });
    expect(played.cleanCyclesToPass(2, cycle)).toBe(0);
  });

  it('goes on for a note that comes now and then until it was right twice', () => {
    const played = new Trial(new OwnNotes({ pickup: 0, notes: true }));
    const own = due(0, { cycle: 9, position: 1, layers: [2] }).note;
    const now = (ahead: number) => (ahead % 5 === 4 ? [...cycle(), own] : cycle());
    expect(played.cleanCyclesToPass(2, now)).toBe(10);
  });

  it('are none that can be told of cycles without notes, or with too few', () => {
    expect(trial('').cleanCyclesToPass(2, () => [])).toBeUndefined();
    const seldom = (ahead: number) => (ahead % 40 === 0 ? cycle().slice(0, 1) : []);
    expect(trial('').cleanCyclesToPass(2, seldom)).toBeUndefined();
  });
});
