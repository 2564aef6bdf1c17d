import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM, GENERAL_MIDI } from '../../../src/kit/built-in-kits';
import { withPad } from '../../../src/kit/edit-kit';
import { checkPhrase } from '../../../src/phrase/file/parse-phrase';
import { finishedTake } from '../../../src/practice/takes/finished-take';
import { summaryOf } from '../../../src/practice/takes/take-scoring';
import { LANE_VERDICTS } from '../../../src/live/lane-feed';
import { liveStats } from '../../../src/live/live-stats';
import { LiveTake } from '../../../src/live/live-take';
import { LiveTimeline } from '../../../src/live/live-timeline';
import { openTake } from '../../../src/live/open-take';
import { TakeRun } from '../../../src/practice/takes/take-run';
import { simulate } from '../../../src/take/simulate';
import { parseTake, writeTake } from '../../../src/take/take-json';
import { VOICES } from '../../../src/phrase/model/voice';
import { beats } from '../../../src/time/beats';
import { handPage } from '../hand-page';

const FILE = {
  title: 'Tow Line',
  meter: '2/4',
  tempoBpm: 120,
  subdivision: 2,
  grouping: 'R L K',
  layers: [
    { name: 'Sticking' },
    { name: 'Ghosts', changes: [{ where: { limb: 'L' }, set: { level: 'ghost' } }] },
  ],
};
const TEXT = JSON.stringify(FILE);
const HEAD = { phraseText: TEXT, startedAt: '2026-05-04T18:00:00.000Z' };
const checked = checkPhrase(FILE);
if (!checked.ok) throw new Error(checked.errors[0]!.message);
const phrase = checked.value;

/** A run on two clocks that agree: performance time in ms, audio time the same in seconds. */
function rig() {
  const hand = handPage();
  const timeline = new LiveTimeline({
    phrase,
    passages: [{ fromBar: 1, layer: 1 }],
    tempos: [{ fromBeat: beats(0), bpm: 120 }],
    windows: {},
    countInBars: 1,
  });
  const take = new LiveTake(timeline, GENERAL_MIDI);
  const cycles: number[] = [];
  const run = new TakeRun(hand.dependencies, {
    take,
    click: () => ({ follows: 'meter', beats: 'all' }),
    reference: () => 'off',
    onCycle: (at) => cycles.push(at),
  });
  run.start();
  const originMs = hand.page.nowMs - run.nowUs() / 1000;
  const clicks = () =>
    hand.output.sounds
      .filter(({ cancelled }) => !cancelled)
      .map(({ event, atSeconds }) => ({
        us: Math.round((atSeconds * 1000 - originMs) * 1000),
        sound:
          event.kind === 'click' ? event.sound : event.kind === 'voice' ? event.voice : event.word,
      }));
  return {
    run,
    take,
    timeline,
    cycles,
    clicks,
    /** To a time of the take, as the others. */
    passTo: (us: number) => hand.passTo(originMs + us / 1000),
    freezeTo: (us: number) => hand.freezeTo(originMs + us / 1000),
    send: (us: number, ...bytes: [number, number, number]) =>
      hand.send(originMs + us / 1000, ...bytes),
    useKit: hand.useKit,
  };
}

describe('a take from its count-in on', () => {
  it('clicks the count-in and every beat after it, each once', () => {
    const { run, passTo, clicks } = rig();
    expect(run.nowUs()).toBeLessThan(-1_000_000);
    passTo(2_000_000);
    expect(clicks().slice(0, 6)).toEqual([
      { us: -1_000_000, sound: 'bar' },
      { us: -500_000, sound: 'beat' },
      { us: 0, sound: 'bar' },
      { us: 500_000, sound: 'beat' },
      { us: 1_000_000, sound: 'bar' },
      { us: 1_500_000, sound: 'beat' },
    ]);
  });

  it('tells each cycle once its verdicts are in', () => {
    const { cycles, passTo } = rig();
    passTo(850_000);
    expect(cycles).toEqual([]);
    passTo(1_100_000);
    expect(cycles).toEqual([0]);
    passTo(2_600_000);
    expect(cycles).toEqual([0, 1, 2]);
  });

  it('changes tempo at the next cycle start that leaves notice, click and notes alike', () => {
    const { run, timeline, passTo, clicks } = rig();
    passTo(200_000);
    // Cycles of three eighths, 0.75 s each at 120: the third begins three beats on, which is bar 2 beat 2 of 2/4.
    const { atUs: changeUs, bar, beat } = run.changeTempo(60);
    expect([changeUs, bar, beat.toFraction()]).toEqual([1_500_000, 2, '2']);
    passTo(5_000_000);
    const steps = clicks()
      .map(({ us }) => us)
      .filter((us) => us >= 1_000_000);
    expect(steps.slice(0, 5)).toEqual([1_000_000, 1_500_000, 2_500_000, 3_500_000, 4_500_000]);
    const onsets = timeline.notes.map((due) => due.timeUs);
    expect(onsets.slice(4, 9)).toEqual([1_000_000, 1_250_000, 1_500_000, 2_000_000, 2_500_000]);
  });

  it('moves to another layer at a realignment without a gap', () => {
    const { run, timeline, passTo } = rig();
    passTo(100_000);
    // Cycle of 3 partials over a bar of 4: they meet again every 3 bars, 3 s.
    expect(run.changeLayer(2)).toMatchObject({ layer: 2, bar: 4, hasPickup: false });
    passTo(4_000_000);
    const around = timeline.notes.filter(
      (due) => due.timeUs >= 2_500_000 && due.timeUs <= 3_250_000,
    );
    expect(around.map((due) => `${due.timeUs} ${due.layer} ${due.note.level}`)).toEqual([
      '2500000 1 tap',
      '2750000 1 tap',
      '3000000 2 tap',
      '3250000 2 ghost',
    ]);
  });

  it('gives figures of what was played, cycle by cycle, and keeps a take that opens again the same', () => {
    const { run, take, timeline, passTo, send } = rig();
    const played = simulate(timeline.notes.slice(0, 12), { biasMs: 8 }, 3).messages;
    for (const { timeUs, status, data1, data2 } of played) {
      passTo(timeUs);
      send(timeUs, status, data1, data2);
    }
    passTo(3_400_000);
    const stats = liveStats(take, 3);
    expect(stats).toMatchObject({ layer: 1, extras: 0 });
    expect(stats.lastCycles).toMatchObject({ fromCycle: 1, toCycle: 4 });
    expect(stats.lastCycles!.figures).toMatchObject({ count: 12, inTime: 12, meanMs: 8 });
    expect(stats.overall.count).toBe(12);
    expect(stats.layers).toHaveLength(1);
    expect(stats.gate.passed).toBe(false);
    expect(stats.gate.cleanCyclesToPass).toBe(15);

    const kept = finishedTake(take, HEAD, run.nowUs());
    const reread = parseTake(writeTake(kept));
    expect(reread.ok && reread.value).toEqual(kept);
    expect(summaryOf(kept)).toMatchObject({
      phraseTitle: 'Tow Line',
      layer: 1,
      notes: 12,
      asWritten: 1,
      offsetMeanMs: 8,
      passed: false,
    });
    const opened = openTake(kept)!;
    expect(opened.judgement.notes).toHaveLength(12);
    expect(opened.lane.noteCount).toBe(12);
    expect(
      Array.from(opened.lane.noteVerdict.subarray(0, 12), (code) => LANE_VERDICTS[code]),
    ).toEqual(Array(12).fill('in time'));
    expect(Array.from(opened.lane.strokeTimeUs.subarray(0, 12))).toEqual(
      played.map((message) => message.timeUs),
    );
  });

  it('judges again what was played when a note gets a voice in the middle, and opens the same', () => {
    const { run, passTo, timeline, send, useKit } = rig();
    const NEW_NOTE = 91;
    const strike = (i: number) => {
      const { timeUs, note } = timeline.notes[i]!;
      passTo(timeUs);
      const pad = note.voice === 'bass drum' ? NEW_NOTE : 38;
      send(timeUs, 0x99, pad, 70);
    };
    for (let i = 0; i < 9; i++) strike(i);
    passTo(2_600_000);
    const verdicts = () =>
      Array.from(run.take.noteVerdict.subarray(0, 12), (code) => LANE_VERDICTS[code]);
    const heard = ['in time', 'in time', 'missed'];
    expect(verdicts().slice(0, 6)).toEqual([...heard, ...heard]);
    useKit(withPad(GENERAL_MIDI, NEW_NOTE, 'bass drum', 'Mine'));
    for (let i = 9; i < 12; i++) strike(i);
    passTo(3_400_000);
    expect(verdicts()).toEqual(Array(12).fill('in time'));
    expect(run.take.countStrokes().extras).toBe(0);
    const opened = openTake(finishedTake(run.take, HEAD, 3_400_000))!;
    expect(opened.judgement.notes.map(({ verdict }) => verdict)).toEqual(Array(12).fill('in time'));
  });

  it('goes on through a new kit as its replay does: opening, double triggers and all', () => {
    const { run, passTo, send, useKit } = rig();
    passTo(100_000);
    send(20_000, 0xb9, 4, 0);
    send(250_000, 0x99, 38, 110);
    useKit(EDGE_AND_RIM);
    // 12 ms after the stroke before the new kit, and much softer: the pad's doing.
    send(262_000, 0x99, 38, 12);
    send(500_000, 0x99, 46, 80);
    passTo(1_000_000);
    const read = (take: LiveTake) =>
      Array.from({ length: take.strokeCount }, (_, j) => [
        take.strokeTimeUs[j],
        VOICES[take.strokeVoice[j]!],
        take.strokeSetAside[j],
      ]);
    const opened = openTake(finishedTake(run.take, HEAD, 1_000_000))!;
    expect(read(run.take)).toEqual(read(opened.lane));
    expect(run.take.countStrokes()).toMatchObject({ doubleTriggers: 1 });
    expect(run.take.kit).toBe(EDGE_AND_RIM);
  });

  it('lays out what is due before strokes that come after a long standstill are judged', () => {
    const { run, timeline, freezeTo, send } = rig();
    const laidUs = timeline.notes.at(-1)!.timeUs;
    freezeTo(laidUs + 10_000_000);
    // Every note falls on a partial of 250 ms, whatever has been laid out.
    const strokes = Array.from({ length: 20 }, (_, i) => ({
      timeUs: Math.ceil(laidUs / 250_000) * 250_000 + (i + 1) * 250_000,
    }));
    for (const { timeUs } of strokes) send(timeUs, 0x99, 38, 70);
    const answered = Array.from(
      run.take.strokeNote.subarray(0, 20),
      (note) => run.take.noteTimeUs[note],
    );
    expect(answered).toEqual(strokes.map(({ timeUs }) => timeUs));
  });

  it('keeps a take that reaches as far as it was struck, though the clock was set back by hours', () => {
    const { run, passTo, send } = rig();
    passTo(3_000_000);
    send(3_000_000, 0x99, 38, 70);
    const kept = finishedTake(run.take, HEAD, -3_600_000_000);
    expect(kept.endUs).toBe(3_000_000);
    expect(summaryOf(kept)?.seconds).toBe(3);
    expect(parseTake(writeTake(kept))).toEqual({ ok: true, value: kept });
  });

  it('opens no take whose phrase cannot be read', () => {
    const { take } = rig();
    const kept = finishedTake(take, { ...HEAD, phraseText: '{}' }, 0);
    expect(openTake(kept)).toBeUndefined();
    expect(summaryOf(kept)).toBeUndefined();
  });
});
