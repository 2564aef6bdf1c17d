import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Assignment } from '../../src/match/assignment';
import { canAnswer } from '../../src/match/pair-weight';
import { compareRows } from '../../src/match/weight-row';
import { changingTrain, playedTrain, tiedTrain } from './arbitrary-train';

const SNARE = 5;
const REACH = 100_000;
const answersOf = ({ strokeOfNote, noteCount }: Assignment) => [
  ...strokeOfNote.subarray(0, noteCount),
];

describe('an assignment', () => {
  it.each([0, -1, NaN, 500_001])('refuses a reach of %d µs', (windowUs) => {
    expect(() => new Assignment(windowUs)).toThrow(
      new RangeError(`reach must be above 0 and at most 500000 µs, got ${windowUs}`),
    );
  });

  it('takes one of half a second', () => {
    expect(new Assignment(500_000).windowUs).toBe(500_000);
  });

  it('allocates nothing once room is made, and doubles when it must', () => {
    const assignment = new Assignment(REACH, 4, 4);
    assignment.reserve(5, 5);
    const columns = () => [
      assignment.noteUs,
      assignment.noteVoice,
      assignment.noteReachUs,
      assignment.noteRank,
      assignment.strokeOfNote,
      assignment.notePrice,
      assignment.strokeUs,
      assignment.strokeVoice,
      assignment.strokeVelocity,
      assignment.strokeRank,
      assignment.noteOfStroke,
      assignment.withdrawn,
      assignment.strokePrice,
      assignment.strokesInTime,
    ];
    const before = columns();
    expect([assignment.noteUs.length, assignment.strokeUs.length]).toEqual([8, 8]);
    for (let i = 0; i < 8; i++) assignment.addNote(i * 200_000, SNARE, REACH);
    for (let i = 0; i < 8; i++) assignment.addStroke(i * 200_000, SNARE, 80);
    columns().forEach((column, c) => expect(column).toBe(before[c]));
    assignment.reserve(30, 40);
    expect([assignment.noteUs.length, assignment.strokeUs.length]).toEqual([30, 40]);
    expect(answersOf(assignment)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
  });

  it('names the notes whose answer changed', () => {
    const assignment = new Assignment(REACH, 4, 4);
    for (let i = 0; i < 3; i++) assignment.addNote(i * 120_000, SNARE, REACH);
    const changed = () =>
      [...new Set(assignment.changedNotes.subarray(0, assignment.changedCount))].sort();
    const first = assignment.addStroke(60_000, SNARE, 80);
    expect(changed()).toEqual([0]);
    const second = assignment.addStroke(10_000, SNARE, 80);
    expect(changed()).toEqual([0, 1]);
    expect(answersOf(assignment)).toEqual([second, first, -1]);
    assignment.addStroke(-150_000, SNARE, 80);
    expect(changed()).toEqual([]);
    const third = assignment.addWithdrawn(240_000, SNARE, 80);
    expect(changed()).toEqual([]);
    assignment.withdraw(third);
    expect(changed()).toEqual([]);
    assignment.withdraw(second);
    expect(changed()).toEqual([0, 1]);
    expect(answersOf(assignment)).toEqual([first, -1, -1]);
    assignment.withdraw(first);
    expect(changed()).toEqual([0]);
    expect(answersOf(assignment)).toEqual([-1, -1, -1]);
  });

  // Each stroke lies a hair nearer to the note after it; one more stroke at the end moves all of them to the note
  // before, since then the first note is answered too.
  it('moves a row of ninety strokes by one note, and back', () => {
    const assignment = new Assignment(REACH, 4, 4);
    for (let i = 0; i <= 90; i++) assignment.addNote(i * 100_000, SNARE, REACH);
    for (let i = 0; i < 90; i++) assignment.addStroke(i * 100_000 + 50_001, SNARE, 80);
    const later = [-1, ...Array.from({ length: 90 }, (_, i) => i)];
    expect(answersOf(assignment)).toEqual(later);
    const last = assignment.addStroke(9_000_000, SNARE, 80);
    expect(answersOf(assignment)).toEqual(Array.from({ length: 91 }, (_, i) => i));
    expect(assignment.changedCount).toBe(91);
    expect(new Set(assignment.changedNotes.subarray(0, 91)).size).toBe(91);
    assignment.withdraw(last);
    expect(answersOf(assignment)).toEqual(later);
    expect(new Set(assignment.changedNotes.subarray(0, assignment.changedCount)).size).toBe(91);
  });

  it('pairs nobody in the room that is not used yet', () => {
    const assignment = new Assignment(REACH, 1, 1);
    const partners = () => [...assignment.strokeOfNote, ...assignment.noteOfStroke];
    expect(partners()).toEqual([-1, -1]);
    assignment.reserve(2, 2);
    expect(partners()).toEqual([-1, -1, -1, -1]);
  });

  it('counts how many notes before are alike: of one time and one voice', () => {
    const assignment = new Assignment(REACH);
    const notes = [
      [0, 5],
      [0, 5],
      [0, 6],
      [1, 6],
    ] as const;
    for (const [timeUs, voice] of notes) assignment.addNote(timeUs, voice, REACH);
    const alike = [...assignment.noteRank.subarray(0, 4)].map((rank) => rank % 4);
    expect(alike).toEqual([0, 1, 0, 0]);
  });

  it('lets cost 1 stand for what all reaches divide, and keeps its prices in step', () => {
    const assignment = new Assignment(REACH);
    expect(assignment.unit).toBe(0);
    assignment.addNote(0, SNARE, 60_000);
    expect(assignment.unit).toBe(60_000);
    assignment.addStroke(15_000, SNARE, 80);
    const priceInUnits = () =>
      (assignment.notePrice[0]! + assignment.strokePrice[0]!) / assignment.unit;
    expect(priceInUnits()).toBe(1.5);
    assignment.addNote(1_000_000, SNARE, 50_000);
    expect(assignment.unit).toBe(300_000);
    expect(priceInUnits()).toBe(1.5);
    assignment.addNote(2_000_000, SNARE, 60_000);
    expect(assignment.unit).toBe(300_000);
  });

  it('keeps strokes in order of time, and of one time as they came', () => {
    const assignment = new Assignment(REACH);
    for (const timeUs of [20, 30, 10, 20, 40]) assignment.addStroke(timeUs, SNARE, 80);
    expect([...assignment.strokesInTime.subarray(0, 5)]).toEqual([2, 0, 3, 1, 4]);
  });

  it('finds a note at its edge for a stroke that comes after later ones', () => {
    const assignment = new Assignment(REACH);
    for (const timeUs of [0, 300_000]) assignment.addNote(timeUs, SNARE, REACH);
    for (const timeUs of [400_000, 100_000]) assignment.addStroke(timeUs, SNARE, 80);
    expect(answersOf(assignment)).toEqual([1, 0]);
  });

  it('finds notes that are added after a stroke past all there were', () => {
    const assignment = new Assignment(REACH);
    assignment.addStroke(400_000, SNARE, 80);
    assignment.addNote(600_000, SNARE, REACH);
    assignment.addStroke(600_000, SNARE, 80);
    expect(answersOf(assignment)).toEqual([1]);
  });

  it('finds notes that are added in place of some taken back', () => {
    const assignment = new Assignment(REACH);
    for (const timeUs of [0, 100_000, 200_000]) assignment.addNote(timeUs, SNARE, REACH);
    assignment.addStroke(400_000, SNARE, 80);
    assignment.dropNotesFrom(1);
    assignment.addNote(500_000, SNARE, REACH);
    assignment.addStroke(550_000, SNARE, 80);
    expect(answersOf(assignment)).toEqual([-1, 1]);
  });

  // The pair saves nothing against a miss and an extra stroke at the very edge, and more pairs decide.
  it.each([
    [150_000, [1, 0]],
    [150_001, [1, -1]],
  ])('a stroke that makes way for another takes a note at %i µs, its edge', (lateUs, answers) => {
    const assignment = new Assignment(REACH);
    for (const timeUs of [0, lateUs]) assignment.addNote(timeUs, SNARE, REACH);
    for (const timeUs of [50_000, 0]) assignment.addStroke(timeUs, SNARE, 80);
    expect(answersOf(assignment)).toEqual(answers);
  });

  it.each([
    [-100_001, [-1]],
    [-100_000, [1]],
    [100_000, [1]],
    [100_001, [-1]],
  ])('a note that lost its stroke takes one %i µs late, its edge', (lateUs, answers) => {
    const assignment = new Assignment(REACH);
    assignment.addNote(0, SNARE, REACH);
    for (const timeUs of [0, lateUs]) assignment.addStroke(timeUs, SNARE, 80);
    assignment.withdraw(0);
    expect(answersOf(assignment)).toEqual(answers);
  });

  // Half-way between the notes the second stroke is as good for either.
  it.each([
    [160_000, [1, 2], [0, 1]],
    [160_001, [1, -1], [0, 1]],
  ])('so does a note whose stroke another takes: at %i µs', (lateUs, answers, changed) => {
    const assignment = new Assignment(REACH);
    for (const timeUs of [0, 60_000]) assignment.addNote(timeUs, SNARE, REACH);
    for (const timeUs of [0, 30_000, lateUs]) assignment.addStroke(timeUs, SNARE, 80);
    expect(answersOf(assignment)).toEqual([0, 1]);
    assignment.withdraw(0);
    expect(answersOf(assignment)).toEqual(answers);
    const { changedNotes, changedCount } = assignment;
    expect([...new Set(changedNotes.subarray(0, changedCount))].sort()).toEqual(changed);
  });

  it('a note that lost its stroke takes that of the first note, which is then missed', () => {
    const assignment = new Assignment(REACH);
    for (const timeUs of [0, 40_000]) assignment.addNote(timeUs, SNARE, REACH);
    for (const timeUs of [25_000, 40_000]) assignment.addStroke(timeUs, SNARE, 80);
    expect(answersOf(assignment)).toEqual([0, 1]);
    assignment.withdraw(1);
    expect(answersOf(assignment)).toEqual([-1, 0]);
  });

  it('of two notes that cost as much takes the one of its own voice', () => {
    const assignment = new Assignment(REACH);
    assignment.addNote(0, SNARE + 1, REACH);
    assignment.addNote(50_000, SNARE, REACH);
    assignment.addStroke(0, SNARE, 80);
    expect(answersOf(assignment)).toEqual([-1, 0]);
  });

  it('no stroke answers a note that was taken back, straight or in making way', () => {
    const assignment = new Assignment(REACH);
    for (const timeUs of [0, 50_000, 400_000]) assignment.addNote(timeUs, SNARE, REACH);
    assignment.dropNotesFrom(1);
    for (const timeUs of [60_000, 20_000, 10_000]) assignment.addStroke(timeUs, SNARE, 80);
    expect([...assignment.noteOfStroke.subarray(0, 3)]).toEqual([-1, -1, 0]);
  });

  // Cost 1 is the first note's reach, 100, so that 30,001 of 30,000 µs is 1 when rounded.
  describe.each([
    ['on its voice', SNARE, 30_000, 0],
    ['on its voice', SNARE, 30_001, -1],
    ['on another', SNARE + 1, 15_000, 0],
    ['on another', SNARE + 1, 15_001, -1],
  ])('of a note with a reach of 30 ms, a stroke %s (%i) %i µs late', (_, voice, lateUs, answer) => {
    const withNote = () => {
      const assignment = new Assignment(REACH);
      assignment.addNote(-1_000_000, SNARE, 100);
      assignment.addNote(0, SNARE, 30_000);
      return assignment;
    };

    it(`gives the note ${answer} as it comes`, () => {
      const assignment = withNote();
      assignment.addStroke(lateUs, voice, 80);
      expect(answersOf(assignment)).toEqual([-1, answer]);
    });

    it(`gives the note ${answer} when it makes way for another`, () => {
      const assignment = withNote();
      assignment.addNote(lateUs + 20_000, voice, 30_000);
      assignment.addStroke(lateUs, voice, 80);
      assignment.addStroke(lateUs + 20_000, voice, 80);
      expect(answersOf(assignment)).toEqual([-1, answer, 1]);
    });

    it(`gives the note ${answer} when it loses its own`, () => {
      const assignment = withNote();
      assignment.addStroke(lateUs, voice, 80);
      assignment.withdraw(assignment.addStroke(0, SNARE, 80));
      expect(answersOf(assignment)).toEqual([-1, answer]);
    });
  });

  // Linear programming duality: with such prices no matching saves more than the one that is made.
  it('lawPrices: a pair costs what it saves, no other saves more than it costs, and who is alone costs nothing', () => {
    const trains = fc.oneof(playedTrain, tiedTrain, changingTrain);
    fc.assert(
      fc.property(trains, fc.infiniteStream(fc.nat({ max: 3 })), (train, chances) => {
        const assignment = new Assignment(REACH, 4, 4);
        for (const { timeUs, voice, reachUs } of train.notes)
          assignment.addNote(timeUs, voice, reachUs);
        train.strokes.forEach(({ timeUs, voice, velocity }, j) => {
          assignment.addStroke(timeUs, voice, velocity);
          if (chances.next().value === 0)
            assignment.withdraw(Math.max(0, j - chances.next().value!));
        });
        train.notes.forEach((_, i) =>
          train.strokes.forEach((_, j) => expectFairPrice(assignment, i, j)),
        );
      }),
    );
  });
});

function expectFairPrice(assignment: Assignment, i: number, j: number) {
  const price = (prices: Float64Array, at: number) => prices.subarray(6 * at, 6 * at + 6);
  const note = price(assignment.notePrice, i);
  const stroke = price(assignment.strokePrice, j);
  const nothing = new Float64Array(6);
  if (assignment.strokeOfNote[i]! < 0) expect(compareRows(note, 0, nothing, 0)).toBe(0);
  if (assignment.withdrawn[j]) return;
  if (assignment.noteOfStroke[j]! < 0) expect(compareRows(stroke, 0, nothing, 0)).toBe(0);
  const offsetUs = assignment.strokeUs[j]! - assignment.noteUs[i]!;
  const same = assignment.strokeVoice[j] === assignment.noteVoice[i];
  if (!canAnswer(offsetUs, same, assignment.noteReachUs[i]!)) return;
  const saved = new Float64Array(6);
  assignment.weigh(i, j, saved);
  const over = compareRows(
    note.map((each, k) => each + stroke[k]!),
    0,
    saved,
    0,
  );
  if (assignment.strokeOfNote[i] === j) expect(over).toBe(0);
  else expect(over).toBeGreaterThanOrEqual(0);
}
