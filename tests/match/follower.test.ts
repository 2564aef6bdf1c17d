import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Follower, GRACE_US } from '../../src/match/follower';
import { matchColumns } from '../../src/match/match-take';
import { VERDICT_CODES, verdictOf } from '../../src/match/verdict';
import { VOICES } from '../../src/phrase/model/voice';
import {
  changingTrain,
  columns,
  edgeTrain,
  playedTrain,
  tiedTrain,
  type Train,
} from './arbitrary-train';
import { runCount } from '../run-count';

function follow(train: Train): Follower {
  const follower = new Follower(Math.max(1, ...train.notes.map((note) => note.reachUs)), 4, 4);
  for (const note of train.notes)
    follower.addNote(note.timeUs, note.voice, note.reachUs, Math.floor(note.reachUs / 3));
  return follower;
}

const play = (follower: Follower, stroke: Train['strokes'][number]) =>
  follower.add(stroke.timeUs, stroke.voice, stroke.velocity);

const answers = (train: Train, follower: Follower, arrival: readonly number[]) =>
  Array.from(follower.assignment.strokeOfNote.subarray(0, train.notes.length), (s) =>
    s < 0 ? -1 : arrival[s]!,
  );

/** Strokes by what they are, so that a train with one of them gone can be compared. */
const named = (train: Train, strokeOfNote: ArrayLike<number>) =>
  Array.from(strokeOfNote, (j) => (j < 0 ? undefined : train.strokes[j]));

const replay = (train: Train) => {
  const { notes, strokes } = columns(train);
  return matchColumns(notes, strokes).strokeOfNote;
};

const trains = fc.oneof(playedTrain, tiedTrain, changingTrain, edgeTrain);

describe('the live follower', () => {
  it('lawLiveEqualsReplay: ends where the whole-take matcher ends, whatever the order of arrival', () => {
    fc.assert(
      fc.property(trains, fc.infiniteStream(fc.nat()), (train, keys) => {
        const key = train.strokes.map(() => keys.next().value);
        const arrival = train.strokes.map((_, j) => j).sort((a, b) => key[a]! - key[b]!);
        const follower = follow(train);
        for (const j of arrival) play(follower, train.strokes[j]!);
        const found = replay(train);
        expect(named(train, answers(train, follower, arrival))).toEqual(named(train, found));
        follower.advance(1e12);
        train.notes.forEach(({ timeUs, voice }, i) => {
          const stroke = train.strokes[found[i]!];
          const verdict = verdictOf(
            { note: { voice: VOICES[voice]! }, timeUs, toleranceUs: follower.noteToleranceUs[i]! },
            stroke && { voice: VOICES[stroke.voice]!, timeUs: stroke.timeUs },
          );
          expect(VERDICT_CODES[follower.noteVerdict[i]!]).toBe(verdict);
        });
      }),
      { numRuns: runCount(1000, 15) },
    );
  });

  it('lawWithdrawal: strokes taken back at any time leave no trace', () => {
    fc.assert(
      fc.property(trains, fc.infiniteStream(fc.nat({ max: 5 })), (train, chances) => {
        const follower = follow(train);
        const gone = new Set<number>();
        train.strokes.forEach((stroke, j) => {
          if (chances.next().value === 0) {
            gone.add(follower.addWithdrawn(stroke.timeUs, stroke.voice, stroke.velocity));
            return;
          }
          play(follower, stroke);
          const back = j - chances.next().value!;
          if (chances.next().value! > 2 || back < 0) return;
          follower.withdraw(back);
          gone.add(back);
        });
        const kept = { ...train, strokes: train.strokes.filter((_, j) => !gone.has(j)) };
        const arrival = train.strokes.map((_, j) => j);
        expect(named(train, answers(train, follower, arrival))).toEqual(named(kept, replay(kept)));
        for (const j of gone) expect(follower.assignment.noteOfStroke[j]).toBe(-1);
        follower.advance(1e12);
        const missed = Array.from(follower.assignment.strokeOfNote.subarray(0, train.notes.length));
        missed.forEach((j, i) =>
          expect(VERDICT_CODES[follower.noteVerdict[i]!] === 'missed').toBe(j < 0),
        );
      }),
      { numRuns: runCount(1000, 15) },
    );
  });

  it('gives each stroke its verdict at once, and calls a note missed after its window and the grace', () => {
    const follower = new Follower(100_000);
    follower.addNote(0, 5, 100_000, 35_000);
    follower.addNote(500_000, 5, 100_000, 35_000);
    follower.addNote(1_000_000, 5, 100_000, 35_000);
    follower.addNote(1_500_000, 5, 100_000, 35_000);
    const verdicts = () =>
      Array.from(follower.noteVerdict.subarray(0, 4), (code) => VERDICT_CODES[code]);
    follower.add(-35_000, 5, 80);
    follower.add(535_001, 5, 80);
    follower.add(1_010_000, 6, 80);
    expect(verdicts()).toEqual(['in time', 'late', 'wrong voice', 'pending']);
    follower.advance(1_600_000 + GRACE_US);
    expect(verdicts()[3]).toBe('pending');
    follower.advance(1_600_001 + GRACE_US);
    expect(verdicts()[3]).toBe('missed');
    follower.add(1_470_000, 5, 80);
    expect(verdicts()[3]).toBe('in time');
  });

  it.each([
    [-100_001, 5, 'pending'],
    [-100_000, 5, 'early'],
    [-35_001, 5, 'early'],
    [-35_000, 5, 'in time'],
    [35_000, 5, 'in time'],
    [35_001, 5, 'late'],
    [100_000, 5, 'late'],
    [100_001, 5, 'pending'],
    [-50_001, 6, 'pending'],
    [-50_000, 6, 'wrong voice'],
    [50_000, 6, 'wrong voice'],
    [50_001, 6, 'pending'],
  ])('closes its edges: %i µs from the note on voice %i is %s', (offsetUs, voice, verdict) => {
    const follower = new Follower(100_000);
    follower.addNote(1_000_000, 5, 100_000, 35_000);
    follower.add(1_000_000 + offsetUs, voice, 80);
    expect(VERDICT_CODES[follower.noteVerdict[0]!]).toBe(verdict);
  });

  it('waits for the window of the note', () => {
    const follower = new Follower(100_000);
    follower.addNote(0, 5, 60_000, 20_000);
    follower.advance(60_000 + GRACE_US);
    expect(VERDICT_CODES[follower.noteVerdict[0]!]).toBe('pending');
    follower.advance(60_001 + GRACE_US);
    expect(VERDICT_CODES[follower.noteVerdict[0]!]).toBe('missed');
  });

  it('calls a note that lost its stroke pending while it may be answered, and missed after', () => {
    const follower = new Follower(100_000);
    follower.addNote(0, 5, 100_000, 35_000);
    const verdict = () => VERDICT_CODES[follower.noteVerdict[0]!];
    follower.withdraw(follower.add(0, 5, 80));
    expect(verdict()).toBe('pending');
    const stroke = follower.add(0, 5, 80);
    follower.advance(100_001 + GRACE_US);
    expect(verdict()).toBe('in time');
    follower.withdraw(stroke);
    expect(verdict()).toBe('missed');
  });

  it('allocates nothing once room is made', () => {
    const follower = new Follower(100_000, 4, 4);
    follower.reserve(9, 9);
    const { noteVerdict, noteToleranceUs } = follower;
    expect([noteVerdict.length, noteToleranceUs.length]).toEqual([9, 9]);
    for (let i = 0; i < 9; i++) follower.addNote(i * 200_000, 5, 100_000, 35_000);
    expect(follower.noteVerdict).toBe(noteVerdict);
    expect(follower.noteToleranceUs).toBe(noteToleranceUs);
    follower.reserve(4, 4);
    expect(follower.noteVerdict).toBe(noteVerdict);
  });

  it('notes taken back and added again are as they were, two hands on one pad too', () => {
    const take = (again: boolean) => {
      const follower = new Follower(100_000);
      const addNotes = (count: number) => {
        for (let i = 0; i < count; i++) follower.addNote(0, 5, 100_000, 35_000);
      };
      addNotes(2);
      if (again) {
        follower.dropNotesFrom(1);
        expect(follower.assignment.noteCount).toBe(1);
        addNotes(1);
      }
      return Array.from(follower.assignment.noteRank.subarray(0, 2));
    };
    expect(take(true)).toEqual(take(false));
    expect(take(false)[1]! - take(false)[0]!).toBe(1);
  });

  it('amends a verdict when a better explanation arrives', () => {
    const follower = new Follower(100_000);
    follower.addNote(0, 5, 100_000, 35_000);
    follower.addNote(120_000, 5, 100_000, 35_000);
    follower.add(60_000, 5, 80);
    expect(Array.from(follower.assignment.strokeOfNote.subarray(0, 2))).toEqual([0, -1]);
    follower.add(10_000, 5, 80);
    expect(Array.from(follower.assignment.strokeOfNote.subarray(0, 2))).toEqual([1, 0]);
  });
});
