import { deepStrictEqual, equal } from 'node:assert/strict';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { KitDecoder } from '../../src/kit/kit-decoder';
import { liveStats, type LiveStats } from '../../src/live/live-stats';
import { LiveTake } from '../../src/live/live-take';
import { LiveTimeline } from '../../src/live/live-timeline';
import { simulate } from '../../src/take/simulate';
import { beats } from '../../src/time/beats';
import { benchPhrase, SLACK_WATER } from './bench-phrases';
import { duration, p50, p99, type BenchRow } from './bench-row';

const RUNS = 5;
/** Cycles looked at, the last ones. */
const LOOKS = 50;
const AIM_MS = 5;
const FAULTS = { spreadMs: 8, missed: 0.03, extra: 0.02, velocitySpread: 4 };

const phrase = benchPhrase(SLACK_WATER);

/** A take whose every cycle is played when it is asked for. */
function playedByCycle(notes: number) {
  const timeline = new LiveTimeline({
    phrase,
    passages: [{ fromBar: 1, layer: phrase.layers.length }],
    tempos: [{ fromBeat: beats(0), bpm: phrase.tempoBpm }],
    windows: {},
    countInBars: 1,
  });
  while (timeline.notes.length < notes) timeline.extendTo(timeline.cycles.at(-1)?.endUs ?? 0);
  const last = timeline.cycles.length - 1;
  timeline.extendTo(timeline.cycles[last]!.endUs + 1);
  const take = new LiveTake(timeline, GENERAL_MIDI);
  take.sync();
  const { messages, truth } = simulate(timeline.notes, FAULTS, 1300);
  const decoder = new KitDecoder(GENERAL_MIDI);
  let sent = 0;
  const playTo = (at: number) => {
    const { endUs } = timeline.cycles[at]!;
    for (; sent < messages.length && messages[sent]!.timeUs < endUs; sent++) {
      const { timeUs, status, data1, data2 } = messages[sent]!;
      take.receive(timeUs, decoder.read(timeUs, status, data1, data2));
    }
    take.advance(endUs);
  };
  return { take, truth, last, playTo };
}

/**
 * After every cycle the figures are those that a take tells which nobody has looked at before, and at the end the gate
 * counts the notes that there are, no more right than were played. The figures after the last cycle.
 */
export function checkLiveStats(notes: number): LiveStats {
  const { take, truth, last, playTo } = playedByCycle(notes);
  const told = Array.from({ length: last + 1 }, (_, at) => {
    playTo(at);
    return liveStats(take, at);
  });
  for (let at = Math.max(0, last - LOOKS); at <= last; at++) {
    const other = playedByCycle(notes);
    other.playTo(at);
    deepStrictEqual(told[at], liveStats(other.take, at));
  }
  const { gate } = told[last]!;
  const due = take.timeline.endNote(last);
  const played = truth.filter(({ kind, note }) => kind === 'played' && note < due).length;
  equal(gate.notes, due);
  equal(gate.right <= played && gate.right > 0.9 * played, true);
  return told[last]!;
}

/** What a cycle's end costs the page while playing: gate, rows and finding. */
export function liveStatsRow(notes: number): BenchRow {
  checkLiveStats(notes);
  const took = Array.from({ length: RUNS }, () => {
    const { take, last, playTo } = playedByCycle(notes);
    return Array.from({ length: last + 1 }, (_, at) => {
      playTo(at);
      const from = performance.now();
      liveStats(take, at);
      return performance.now() - from;
    }).slice(-LOOKS);
  }).flat();
  const usual = p50(took);
  return {
    name: 'figures after a cycle',
    asserted: 'same figures as of a take not looked at before',
    p50: duration(usual),
    tail: `p99 ${duration(p99(took))}`,
    aim: `p50 < ${AIM_MS} ms`,
    met: usual < AIM_MS,
    note: `A look after each cycle, the last ${LOOKS} of a take of ${notes} notes.`,
  };
}
