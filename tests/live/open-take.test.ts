import { describe, expect, it } from 'vitest';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import type { Kit } from '../../src/kit/kit';
import { LANE_VERDICTS } from '../../src/live/lane-feed';
import { openTake } from '../../src/live/open-take';
import { writePhrase } from '../../src/phrase/file/write-phrase';
import { VOICES } from '../../src/phrase/model/voice';
import { summaryOf } from '../../src/practice/takes/take-scoring';
import type { Take } from '../../src/take/take';
import { parseTake, writeTake } from '../../src/take/take-json';
import { beats } from '../../src/time/beats';
import { layeredPhrase, phraseOf } from '../phrase/phrase-of';

const struck = (timeUs: number, data1 = 38) => ({ timeUs, status: 0x99, data1, data2: 72 });

/** One second of sixteenths at 60, in two layers. */
const SOUND: Take = {
  startedAt: '2026-05-04T18:00:00.000Z',
  phraseText: writePhrase(layeredPhrase({}, [{ accentEvery: 3 }])),
  passages: [{ fromBar: 1, layer: 1 }],
  tempos: [{ fromBeat: beats(0), bpm: 60 }],
  countInBars: 1,
  endUs: 1_000_000,
  kit: GENERAL_MIDI,
  deviceOffsetMs: 0,
  toleranceMs: undefined,
  reachMs: undefined,
  messages: [0, 250_000, 500_000, 750_000].map((timeUs) => struck(timeUs)),
};
const passages = (...list: [fromBar: number, layer: number][]) => ({
  passages: list.map(([fromBar, layer]) => ({ fromBar, layer })),
});
const tempos = (...list: [beat: number, bpm: number][]) => ({
  tempos: list.map(([beat, bpm]) => ({ fromBeat: beats(beat), bpm })),
});

describe('a take that was damaged where it is kept', () => {
  it.each<[string, Partial<Take>]>([
    ['a phrase that breaks off', { phraseText: SOUND.phraseText.slice(0, 40) }],
    ['a layer out of range', passages([1, 3])],
    ['layer 0', passages([1, 0])],
    ['a layer that is no number', passages([1, NaN])],
    ['a bar that is no number', passages([NaN, 1])],
    ['half a bar', passages([1.5, 1])],
    ['half a partial late', { passages: [{ fromBar: 1, layer: 1, latePartials: 0.5 }] }],
    ['a count-in before no bar', { passages: [{ fromBar: 1, layer: 1, countInBars: -1 }] }],
    ['no passages', passages()],
    ['passages out of order', passages([3, 1], [2, 2])],
    ['no tempos', tempos()],
    ['tempo 0', tempos([0, 0])],
    ['a tempo that is no number', tempos([0, NaN])],
    ['a tempo without end', tempos([0, Infinity])],
    ['tempos out of order', tempos([0, 60], [4, 60], [2, 60])],
    ['reach 0', { reachMs: 0 }],
    ['reach below 0', { reachMs: -100 }],
    ['a reach of more than half a second', { reachMs: 501 }],
    ['a reach that is no number', { reachMs: NaN }],
    ['a tolerance that is no number', { toleranceMs: NaN }],
    ['a count-in that is no number', { countInBars: NaN }],
    ['an offset that is no number', { deviceOffsetMs: NaN }],
    ['a time that is no number', { messages: [struck(NaN), struck(0)] }],
    ['a time of years', { messages: [struck(0), struck(1e15)] }],
    ['a time of most of a day at the quickest', { ...tempos([0, 1200]), messages: [struck(80e9)] }],
  ])('%s: is not opened, and nothing is thrown', (_, change) => {
    expect(openTake({ ...SOUND, ...change })).toBeUndefined();
    expect(summaryOf({ ...SOUND, ...change })).toBeUndefined();
  });

  it.each<[string, Partial<Take>, number]>([
    ['as it was', {}, 4],
    ['nothing struck', { messages: [] }, 0],
    ['an end ahead of the start', { endUs: -5_000_000 }, 4],
    ['an end that is no number', { endUs: NaN }, 4],
    ['the last layer there is', passages([1, 2]), 4],
    ['the widest reach', { reachMs: 500 }, 4],
    ['a tempo that was changed ahead of bar 1', tempos([-1, 60]), 4],
  ])('%s: is opened', (_, change, notes) => {
    expect(openTake({ ...SOUND, ...change })?.judgement.notes).toHaveLength(notes);
    expect(summaryOf({ ...SOUND, ...change })?.notes).toBe(notes);
  });
});

describe('a take with a stroke hours after the others', () => {
  // Sixteenths at 60: four notes a second.
  const withLast = (second: number): Take => ({
    ...SOUND,
    messages: [...SOUND.messages, struck(1e6 * second)],
  });

  it('is judged where it is kept already, from before takes ended by themselves', () => {
    const { judgement, lane } = openTake(withLast(7200))!;
    expect(judgement.notes).toHaveLength(28_801);
    expect(judgement.notes.filter(({ verdict }) => verdict === 'missed')).toHaveLength(28_796);
    expect(lane.noteCount).toBe(28_801);
  });

  it('is written as a file that opens, and is judged as it was', () => {
    const take = withLast(7200);
    const read = parseTake(writeTake(take));
    expect(read).toEqual({ ok: true, value: take });
  });

  it.each([
    ['two hours', 7200],
    ['eight hours', 28_800],
  ])('is no file that a few bytes make costly: %s after five messages', (_, second) => {
    const text = writeTake(withLast(second)).trim();
    const read = parseTake(text);
    expect(!read.ok && read.errors.map(({ message }) => message)).toEqual([
      `From bar 1 to the last message lie about ${4 * second} partials with ${4 * second} notes, more than are judged of a file of ${text.length} characters; correct the time of that message, or leave it out.`,
    ]);
  });

  it('is a file again where that is as long as what it has judged', () => {
    // 28,800 notes on as many partials, each an eighth of a note: 32,400, three for each character.
    const read = (length: number) => parseTake(writeTake(withLast(7200)).trim().padEnd(length)).ok;
    expect([read(10_799), read(10_800)]).toEqual([false, true]);
  });
});

describe('the lane of a kept take', () => {
  it('has the grace notes of the next cycle where they were the last that were played', () => {
    // Sixteenths at 90: a cycle of R L R L is 666,667 us long, and the grace notes of a drag are 30 ms and 60 ms ahead.
    const played = [-60_000, -30_000, 0, 166_667, 333_333, 500_000, 606_667, 636_667];
    const take: Take = {
      ...SOUND,
      phraseText: writePhrase(phraseOf({ grouping: 'llR L R L' })),
      ...tempos([0, 90]),
      messages: played.map((timeUs) => struck(timeUs)),
    };
    const { judgement, lane } = openTake(take)!;
    expect(judgement.notes.map(({ due }) => due.timeUs)).toEqual(played);
    expect(Array.from(lane.noteTimeUs.subarray(0, lane.noteCount))).toEqual(played);
    expect(lane.countStrokes().extras).toBe(0);
    expect(Array.from(lane.noteVerdict.subarray(0, 8), (code) => LANE_VERDICTS[code])).toEqual(
      Array(8).fill('in time'),
    );
  });

  it('has the pickup of the next passage where it was the last that was played', () => {
    // Sixteenths at 60: bar 2 begins after 4 s, and layer 2 half a beat ahead of it in place of what layer 1 has there.
    const pickup = [2, 1].map((partialsBefore) => ({ partialsBefore, limb: 'L' as const }));
    const take: Take = {
      ...SOUND,
      phraseText: writePhrase(layeredPhrase({ grouping: 'R - - -' }, [{ pickup }])),
      ...passages([1, 1], [2, 2]),
      messages: [0, 1, 2, 3, 3.5, 3.75].map((second) => struck(second * 1e6)),
    };
    const { judgement, lane } = openTake(take)!;
    expect(judgement.notes.map(({ due }) => due.timeUs / 1e6)).toEqual([0, 1, 2, 3, 3.5, 3.75]);
    expect(lane.noteCount).toBe(6);
    expect(lane.countStrokes().extras).toBe(0);
  });

  it('reads a hi-hat as its controller stood when the stroke arrived, as its judgement does', () => {
    const kit: Kit = {
      title: 'Quay shed kit',
      opening: { controller: 4, highMeans: 'open', openFrom: 0.5 },
      pads: [
        { note: 8, name: 'hat', voice: 'hi-hat closed', group: 'hi-hat', followsOpening: true },
      ],
    };
    const opening = (timeUs: number, data2: number) => ({ timeUs, status: 0xb9, data1: 4, data2 });
    const take: Take = {
      ...SOUND,
      kit,
      // The opening was stamped ahead of the second stroke, and came after it.
      messages: [opening(-9000, 0), struck(0, 8), struck(250_000, 8), opening(240_000, 127)],
    };
    const { judgement, lane } = openTake(take)!;
    const closed = ['hi-hat closed', 'hi-hat closed'];
    expect(judgement.notes.map(({ stroke }) => stroke?.voice)).toEqual(closed);
    expect(Array.from(lane.strokeVoice.subarray(0, 2), (voice) => VOICES[voice])).toEqual(closed);
  });
});
