import { describe, expect, it } from 'vitest';
import { clickReturns, meanReturn, type ClickReturn } from '../../src/coach/click-returns';
import { findings } from '../../src/coach/findings';
import { meanReturnWords, returnWords } from '../../src/coach/return-words';
import type { Plan } from '../../src/match/plan';
import type { TimedNote } from '../../src/match/timed-note';
import { isSilentBar, type SilentBars } from '../../src/time/silent-bars';
import { timedNotes } from '../../src/match/timed-notes';
import { beats } from '../../src/time/beats';
import { chance } from '../../src/time/chance';
import { tempoMap } from '../../src/time/tempo';
import { BOUNDARIES, harbourNotes, harbourPlan, HUMAN, judged, later, play } from './practice-take';

const RULE: SilentBars = { sounding: 2, silent: 2, growBy: 0, most: 2 };
const BEAT_US = 625_000;
const BAR_US = 4 * BEAT_US;
const plan = (silentBars = RULE): Plan => ({ ...harbourPlan(), silentBars });

/** Offsets in ms by when a note is due, played exactly. */
function played(bars: number, offsetMs: (due: TimedNote) => number, spreadMs = 0, seed = 1) {
  const notes = harbourNotes(bars);
  const faults = { ...HUMAN, spreadMs };
  return judged(
    notes,
    play(notes, faults, seed, (stroke, due) => later(stroke, offsetMs(due))),
  );
}
/** How far into its silent stretch a note of 2 + 2 bars is, beats; 0 with the click. */
const beatsInSilence = ({ timeUs, note }: TimedNote): number =>
  isSilentBar(RULE, note.bar) ? ((timeUs / BAR_US) % 4) * 4 - 8 : 0;

describe('the return of the click', () => {
  it('tells the last beat without it and what is due with it, less what is usual with it', () => {
    // Always 12 ms late, 30 more in the last beat of a stretch; its return is 12 late again.
    const judgement = played(9, (due) => 12 + (beatsInSilence(due) >= 7 ? 30 : 0));
    const [first, second] = clickReturns(plan(), judgement.notes);
    expect(first).toMatchObject({ fromBar: 3, toBar: 4, beats: 8 });
    expect(second).toMatchObject({ fromBar: 7, toBar: 8, beats: 8 });
    // By hand: of the notes there those of the last beat are 30 ms off.
    const { notes } = first!;
    const off = notes.filter(({ due }) => due.timeUs < 4 * BAR_US).length;
    expect(notes.map(({ due }) => due.timeUs / BEAT_US)).toEqual(
      notes.map(({ due }) => due.timeUs / BEAT_US).filter((beat) => beat >= 15 && beat <= 16),
    );
    expect(first!.errorMs).toBeCloseTo((30 * off) / notes.length, 2);
  });

  it('lawConstantOffset: does not know how far beside the click somebody plays', () => {
    const errors = [-25, 0, 25].map((ms) =>
      clickReturns(plan(), played(9, () => ms, 5).notes).map(({ errorMs }) => errorMs!),
    );
    for (const [i, at] of errors[0]!.entries())
      for (const other of errors) expect(other[i]).toBeCloseTo(at, 1);
  });

  // coaching.md 5.5: s 10 ms: 4 beats 20, 8 28, 16 40, 32 57 ms.
  it.each([
    [1, 20],
    [2, 28],
    [4, 40],
    [8, 57],
  ])('after %d bars of four beats chance makes %d ms of a spread of 10', (silent, chanceMs) => {
    const rule = { sounding: 16, silent, growBy: 0, most: silent };
    const { notes } = played(16 + silent + 1, () => 0, 10, 3);
    const [one] = clickReturns(plan(rule), notes);
    // 256 strokes tell the spread to about 5 %.
    expect(one!.chanceMs! / chanceMs).toBeGreaterThan(0.88);
    expect(one!.chanceMs! / chanceMs).toBeLessThan(1.12);
  });

  it('is not told before the click is back, nor where too little was played near it', () => {
    const { notes } = played(9, () => 0);
    expect(
      clickReturns(
        plan(),
        notes.filter(({ due }) => due.timeUs < 4 * BAR_US),
      ),
    ).toEqual([]);
    const missed = notes.map((note) =>
      note.due.timeUs >= 3.75 * BAR_US && note.due.timeUs <= 4 * BAR_US
        ? { ...note, verdict: 'missed' as const, stroke: undefined, offsetUs: undefined }
        : note,
    );
    expect(clickReturns(plan(), missed).map(({ errorMs }) => errorMs === undefined)).toEqual([
      true,
      false,
    ]);
  });

  it('is off and by chance as the tempo was', () => {
    // Eight bars at 96, where nothing scatters, then at 60, where each stroke lies 6 ms to one side or the other.
    const silentBars = { ...RULE, anewAtTempo: true };
    const tempo = tempoMap([
      { fromBeat: beats(0), bpm: 96 },
      { fromBeat: beats(32), bpm: 60 },
    ]);
    const both: Plan = { ...plan(silentBars), tempo };
    const notes = timedNotes(both, tempo.usAt(beats(68)) - 1);
    const sides = notes.map(({ note }, i) => (note.bar <= 8 ? 0 : i % 2 === 0 ? -6 : 6));
    const strokes = play(notes, { ...HUMAN, spreadMs: 0 }, 1, (stroke, due) =>
      later(stroke, sides[notes.indexOf(due)]!),
    );
    const returns = clickReturns(both, judged(notes, strokes).notes);
    expect(returns.map(({ fromBar }) => fromBar)).toEqual([3, 7, 11, 15]);
    expect(returns.slice(0, 2).map(({ chanceMs }) => chanceMs)).toEqual([0, 0]);
    // Of ±6 ms the spread is 6 ms, and a little more for the mean it takes; √8 beats.
    for (const { chanceMs } of returns.slice(2)) {
      expect(chanceMs).toBeGreaterThanOrEqual(6 * Math.sqrt(8));
      expect(chanceMs).toBeLessThan(6.4 * Math.sqrt(8));
    }
  });

  it('is none where the click never stops', () => {
    expect(clickReturns(harbourPlan(), played(9, () => 0).notes)).toEqual([]);
  });
});

const one = (errorMs: number | undefined, chanceMs: number | undefined = 20): ClickReturn => ({
  fromBar: 3,
  toBar: 4,
  beats: 8,
  errorMs,
  chanceMs,
  notes: [],
});

describe('several returns', () => {
  it('have a mean, and chance that shrinks with their root', () => {
    const told = meanReturn([one(10), one(20), one(30), one(40), one(undefined)])!;
    expect(told).toMatchObject({ count: 4, errorMs: 25, chanceMs: 10 });
    // Of 10, 20, 30, 40: SD 12.9099, over √4.
    expect(told.standardErrorMs).toBeCloseTo(6.455, 3);
    expect(meanReturn([one(undefined)])).toBeUndefined();
  });

  it.each([
    [returnWords(one(-24, 28)), 'Click back at bar 5: 24 ms early; chance alone reaches 56.'],
    [returnWords(one(0.3, 0.2)), 'Click back at bar 5: in time; chance alone reaches 1.'],
    [
      returnWords(one(undefined)),
      'Click back at bar 5: too far off, or too little played, to tell.',
    ],
    [
      returnWords({ ...one(7), chanceMs: undefined }),
      'Click back at bar 5: 7 ms late; not enough strokes to tell chance.',
    ],
    [meanReturnWords(Array.from({ length: 5 }, () => one(9))), '5 of 6 returns for a mean.'],
    [
      meanReturnWords(Array.from({ length: 6 }, () => one(-18))),
      'Over 6 returns: 18 ms early on average; chance alone reaches 16.',
    ],
  ])('%s', (words, expected) => {
    expect(words).toBe(expected);
  });
});

describe('what is claimed of bars without a click', () => {
  const codes = (bars: number, offsetMs: (due: TimedNote) => number, seed = 1) =>
    findings(plan(), played(bars, offsetMs, 8, seed), () => BOUNDARIES).map(({ code }) => code);
  const rushing = (due: TimedNote) => -4 * beatsInSilence(due);

  it.each([
    // Five and six returns: the last bar of the take is the return.
    [21, false],
    [25, true],
  ])('in %d bars rushing by 4 ms a beat is told: %s', (bars, isTold) => {
    expect(codes(bars, rushing).includes('silent bars')).toBe(isTold);
  });

  it('rushing without the click is no drift, and nothing else', () => {
    expect(codes(25, rushing)).toEqual(['silent bars']);
  });

  it('a steady player whose beats scatter is told nothing in 98 of 100 takes', () => {
    let claims = 0;
    const takes = 60;
    for (let seed = 0; seed < takes; seed++) {
      // A random walk of 8 ms a beat from the last click on.
      const { normal } = chance(seed + 500);
      const walks = Array.from({ length: 10 }, () => {
        const at = [0];
        for (let beat = 1; beat <= 8; beat++) at.push(at[beat - 1]! + 8 * normal());
        return at;
      });
      const offset = (due: TimedNote) =>
        walks[Math.floor(due.timeUs / (4 * BAR_US))]![Math.floor(beatsInSilence(due))]!;
      if (codes(33, offset, seed).includes('silent bars')) claims++;
    }
    expect(claims).toBeLessThanOrEqual(1);
  });
});
