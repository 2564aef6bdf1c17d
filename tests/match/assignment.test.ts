import { describe, expect, it } from 'vitest';
import { Assignment } from '../../src/match/assignment';

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
});
