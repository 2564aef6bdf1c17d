import { deepStrictEqual, equal, ok } from 'node:assert/strict';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { KitDecoder } from '../../src/kit/kit-decoder';
import type { PhraseFile } from '../../src/phrase/model/phrase-file';
import { LiveTake } from '../../src/live/live-take';
import { LiveTimeline } from '../../src/live/live-timeline';
import { assess } from '../../src/score/assess';
import { simulate, type Faults } from '../../src/take/simulate';
import { readStrokes } from '../../src/kit/read-strokes';
import type { RawMessage } from '../../src/kit/raw-message';
import { beats } from '../../src/time/beats';
import { benchPhrase } from './bench-phrases';
import { duration, p50, p99, type BenchRow } from './bench-row';
import { STROKE_AIM, STROKE_AIM_MS } from './follower-bench';

const RUNS = 9;
const AHEAD_US = 10_000_000;

/** A faint stroke that the kit adds to one in so many. */
export interface KitFault {
  readonly every: number;
  /** After the stroke it comes with; before is negative. */
  readonly afterUs: number;
  /** Its velocity as a share of that stroke's. */
  readonly share: number;
  /** MIDI note number, when it comes from another pad. */
  readonly pad?: number;
}

/** A phrase, and what player and kit do to it. */
export interface LivePlaying {
  readonly name: string;
  readonly file: PhraseFile;
  readonly faults: Faults;
  readonly kitFault?: KitFault;
}

/** The whole target laid out, as many notes as asked for and what is left of the last ten seconds. */
function laidOut(file: PhraseFile, count: number): LiveTake {
  const phrase = benchPhrase(file);
  const timeline = new LiveTimeline({
    phrase,
    passages: [{ fromBar: 1, layer: phrase.layers.length }],
    tempos: [{ fromBeat: beats(0), bpm: phrase.tempoBpm }],
    windows: {},
    countInBars: 1,
  });
  for (let endUs = 0; timeline.notes.length < count; endUs += AHEAD_US) timeline.extendTo(endUs);
  const take = new LiveTake(timeline, GENERAL_MIDI);
  take.sync();
  return take;
}

function messagesOf(take: LiveTake, count: number, playing: LivePlaying): readonly RawMessage[] {
  const { messages } = simulate(take.timeline.notes.slice(0, count), playing.faults, 1300);
  const { kitFault } = playing;
  if (!kitFault) return messages;
  const { every, afterUs, share, pad } = kitFault;
  const added = messages
    .filter((_, m) => m % every === every - 1)
    .map(({ timeUs, status, data1, data2 }) => ({
      timeUs: timeUs + afterUs,
      status,
      data1: pad ?? data1,
      data2: Math.floor(data2 * share),
    }));
  return [...messages, ...added].sort((a, b) => a.timeUs - b.timeUs);
}

/** Plays all messages; what each took, ms, when `took` is given. */
function play(messages: readonly RawMessage[], take: LiveTake, took?: Float64Array): void {
  const decoder = new KitDecoder(GENERAL_MIDI);
  messages.forEach(({ timeUs, status, data1, data2 }, m) => {
    const from = performance.now();
    take.receive(timeUs, decoder.read(timeUs, status, data1, data2));
    take.advance(timeUs);
    if (took) took[m] = performance.now() - from;
  });
}

/** Every note has the verdict, the level and the stroke that assessing the finished take gives it. */
export function checkLiveTake(playing: LivePlaying, count: number): readonly RawMessage[] {
  const take = laidOut(playing.file, count);
  const messages = messagesOf(take, count, playing);
  play(messages, take);
  take.advance(Infinity);
  const { strokes, setAside, withoutLevel } = readStrokes(messages, GENERAL_MIDI);
  const kept = strokes.filter((_, j) => setAside[j] === 0);
  const judgement = assess(take.timeline.plan, kept, GENERAL_MIDI, withoutLevel);
  deepStrictEqual(take.judgement(0, judgement.notes.length).notes, judgement.notes);
  const { doubleTriggers, crosstalk } = take.countStrokes();
  equal(doubleTriggers + crosstalk, strokes.length - kept.length);
  if (playing.kitFault)
    ok(doubleTriggers + crosstalk >= Math.floor(count / playing.kitFault.every));
  return messages;
}

/** Raw message to verdicts: kit reader, log, set-aside, follower and levels. */
export function liveTakeRow(playing: LivePlaying, count: number): BenchRow {
  const messages = checkLiveTake(playing, count);
  const runs = Array.from({ length: RUNS }, () => {
    const took = new Float64Array(messages.length);
    play(messages, laidOut(playing.file, count), took);
    return took;
  });
  const slow = p50(runs.map(p99));
  return {
    name: `raw message to verdict, ${playing.name}`,
    asserted: 'same verdicts and levels as assess',
    p50: duration(p50(runs.map(p50))),
    tail: `p99 ${duration(slow)}`,
    aim: STROKE_AIM,
    met: slow < STROKE_AIM_MS,
    note: `Per message through the kit reader, the log, the set-aside, the follower and the levels, ${count} notes due.`,
  };
}
