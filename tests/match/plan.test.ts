import { describe, expect, it } from 'vitest';
import {
  cycleSpan,
  isCountIn,
  isSilentIn,
  passageSpan,
  silentAfter,
  type Plan,
} from '../../src/match/plan';
import { notesOfCycles } from '../../src/match/timed-notes';
import type { Passage } from '../../src/phrase/model/passage';
import { checkPhrase } from '../../src/phrase/file/parse-phrase';
import { beats } from '../../src/time/beats';
import { steadyTempo } from '../../src/time/tempo';

/** A cycle of one beat and a half in 4/4: two and two thirds to a bar. */
function plan(partialsBefore = 2): Plan {
  const checked = checkPhrase({
    title: 'Slack water',
    meter: '4/4',
    tempoBpm: 60,
    subdivision: 4,
    cycle: 6,
    grouping: 'R L R L R L',
    layers: [
      { name: 'Sticking' },
      { name: 'Pickup', changes: [{ pickup: [{ partialsBefore, limb: 'K' }] }] },
    ],
  });
  if (!checked.ok) throw new Error(checked.errors[0]!.message);
  return {
    phrase: checked.value,
    passages: [
      { fromBar: 1, layer: 1 },
      { fromBar: 4, layer: 2 },
      { fromBar: 7, layer: 1 },
    ],
    tempo: steadyTempo(60),
    windows: {},
  };
}
const span = (passage: number, cycle: number) => {
  const found = cycleSpan(passageSpan(plan(), passage), cycle);
  return found && [found.from.valueOf(), found.to.valueOf()];
};

describe('a passage laid on the beats', () => {
  it('ends at the next one’s bar line, its notes at the next one’s pickup', () => {
    const laid = [0, 1, 2].map((index) => passageSpan(plan(), index));
    expect(
      laid.map(({ from, to, notesTo }) => [from, to, notesTo].map((at) => at?.valueOf())),
    ).toEqual([
      [0, 12, 11.5],
      [12, 24, 24],
      [24, undefined, undefined],
    ]);
  });

  it.each([
    [0, 1, [0, 1.5]],
    [0, 7, [9, 10.5]],
    ['its end on the next bar line', 0, 8, [10.5, 12]],
    ['its start on the next bar line', 0, 9, undefined],
    [1, 1, [12, 13.5]],
    [2, 100, [172.5, 174]],
  ] as const)('cycle spans: %s %s %s', (...row) => {
    const [passage, cycle, expected] = row.length === 4 ? [row[1], row[2], row[3]] : row;
    expect(span(passage, cycle)).toEqual(expected);
  });

  it('cuts the cycle over which the next passage begins', () => {
    const one = {
      ...plan(),
      passages: [
        { fromBar: 1, layer: 1 },
        { fromBar: 2, layer: 1 },
      ],
    };
    const passage = passageSpan(one, 0);
    const last = cycleSpan(passage, 3)!;
    expect([last.from, last.to].map((at) => at.valueOf())).toEqual([3, 4]);
    expect(cycleSpan(passage, 4)).toBeUndefined();
    expect(last.to.equals(beats(4))).toBe(true);
  });

  it('ends the notes where the pickup of a passage after the next begins, if that is sooner', () => {
    const one = {
      ...plan(),
      passages: [
        { fromBar: 1, layer: 1 },
        // From beat 7 3/4 on; the pickup into bar 3 begins at 7 1/2.
        { fromBar: 2, layer: 1, latePartials: 15 },
        { fromBar: 3, layer: 2 },
      ],
    };
    const ends = [0, 1, 2].map((index) => passageSpan(one, index).notesTo?.valueOf());
    expect(ends).toEqual([7.5, 7.5, undefined]);
    expect(passageSpan(one, 0).to!.valueOf()).toBe(7.75);
  });

  /** Where the notes of the first of these passages end. */
  const endOfFirst = (one: Plan, ...passages: readonly Passage[]) =>
    passageSpan({ ...one, passages }, 0).notesTo?.valueOf();

  it('ends the notes at the first of two pickups, whatever comes soon after', () => {
    const first = { fromBar: 1, layer: 1 };
    const soonAfter = { fromBar: 4, layer: 1, latePartials: 2 };
    expect(endOfFirst(plan(), first, { fromBar: 4, layer: 2 }, soonAfter)).toBe(11.5);
  });

  it('ends the notes where a passage that waited goes on, which has no pickup', () => {
    const waited = { fromBar: 4, layer: 2, latePartials: 2 };
    expect(endOfFirst(plan(), { fromBar: 1, layer: 1 }, waited)).toBe(12.5);
    const passage = passageSpan({ ...plan(), passages: [waited] }, 0);
    const limbs = notesOfCycles(plan(), passage, 1, 1).map(({ note }) => note.limb);
    expect(limbs).toEqual(['R', 'L', 'R', 'L', 'R', 'L']);
  });

  it('ends the notes at a pickup of two beats, ahead of a passage that waited until then', () => {
    // The pickup into bar 4 begins at beat 10; the passage before it goes on from 10 3/4.
    const waited = { fromBar: 3, layer: 1, latePartials: 11 };
    const long = plan(8);
    expect(endOfFirst(long, { fromBar: 1, layer: 1 }, waited, { fromBar: 4, layer: 2 })).toBe(10);
  });

  it('gives its pickup with the first cycle and no other', () => {
    const passage = passageSpan(plan(), 1);
    const limbs = (from: number, count: number) =>
      notesOfCycles(plan(), passage, from, count).map(({ note }) => note.limb);
    expect(limbs(1, 1)).toEqual(['K', 'R', 'L', 'R', 'L', 'R', 'L']);
    expect(limbs(2, 1)).toEqual(['R', 'L', 'R', 'L', 'R', 'L']);
    expect(limbs(1, 0)).toEqual([]);
  });
});

describe('bars of click ahead of a passage', () => {
  const passages = [
    { fromBar: 1, layer: 1 },
    { fromBar: 8, layer: 1, countInBars: 2 },
    { fromBar: 12, layer: 1, countInBars: 1 },
  ];

  it.each([
    [0, false],
    [1, false],
    [5, false],
    [6, true],
    [7, true],
    [8, false],
    [10, false],
    [11, true],
    [12, false],
  ])('bar %i is one: %s', (bar, isOne) => {
    expect(isCountIn({ passages }, bar)).toBe(isOne);
  });

  it('are never silent, and no bar is where nobody asks for it', () => {
    const silentBars = { sounding: 4, silent: 4, growBy: 0, most: 4, anewAtTempo: false };
    const silentOf = (one: Plan) =>
      Array.from({ length: 12 }, (_, i) => i + 1).filter((bar) => isSilentIn(one, bar));
    expect(silentOf({ ...plan(), passages, silentBars })).toEqual([5, 8]);
    expect(silentOf({ ...plan(), passages })).toEqual([]);
    expect(silentAfter({ ...plan(), passages }, 0)).toBeUndefined();
  });
});
