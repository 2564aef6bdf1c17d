import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { describe, expect, it } from 'vitest';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { KitDecoder } from '../../src/kit/kit-decoder';
import { createFaultWatch } from '../../src/kit/faults/fault-watch';
import { checkPhrase } from '../../src/phrase/file/parse-phrase';
import { liveStats } from '../../src/live/live-stats';
import { LiveTake } from '../../src/live/live-take';
import { LiveTimeline } from '../../src/live/live-timeline';
import { MessageTrace } from '../../src/practice/inputs/message-trace';
import { TakeRun } from '../../src/practice/takes/take-run';
import { chance } from '../../src/time/chance';
import { beats } from '../../src/time/beats';
import { longRunCount } from '../run-count';
import { handPage } from './hand-page';

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

/** Sixteenths at 96: 6.4 notes a second, a cycle of five quarters. */
const checked = checkPhrase({
  title: 'Night Ferry',
  meter: '4/4',
  tempoBpm: 96,
  subdivision: 4,
  grouping: 'R L L R K',
  cycle: 20,
  layers: [{ name: 'Sticking' }],
});
if (!checked.ok) throw new Error(checked.errors[0]!.message);
const phrase = checked.value;
const SNARE = 38;
const BASS_DRUM = 36;
const MINUTE_US = 60_000_000;

/** What lives as long as the page does. */
function session() {
  const trace = new MessageTrace();
  const decoder = new KitDecoder(GENERAL_MIDI);
  const faults = createFaultWatch(GENERAL_MIDI);
  const { normal } = chance(20260504);
  let nowMs = 10_000;

  /** Plays one take of so many minutes, as the pump drives it, twice a second. */
  function playTake(minutes: number): LiveTake {
    const hand = handPage({ nowMs });
    const timeline = new LiveTimeline({
      phrase,
      passages: [{ fromBar: 1, layer: 1 }],
      tempos: [{ fromBeat: beats(0), bpm: 96 }],
      windows: {},
      countInBars: 1,
    });
    const run: TakeRun = new TakeRun(hand.dependencies, {
      take: new LiveTake(timeline, GENERAL_MIDI),
      click: () => ({ follows: 'meter', beats: 'all' }),
      reference: () => 'off',
      // Every eighth cycle: they look back on the last 400 notes alone, and a day of them is long.
      onCycle: (at) => void (at % 8 === 0 && liveStats(run.take, at)),
    });
    run.start();
    const originMs = nowMs - run.nowUs() / 1000;
    let next = 0;
    while (run.nowUs() < minutes * MINUTE_US) {
      nowMs += 500;
      hand.freezeTo(nowMs);
      hand.output.sounds.length = 0;
      const nowUs = run.nowUs();
      for (; timeline.notes[next]!.timeUs < nowUs - 50_000; next++) {
        const { timeUs, note } = timeline.notes[next]!;
        const stampMs = originMs + timeUs / 1000 + 8 * normal();
        const pad = note.voice === 'bass drum' ? BASS_DRUM : SNARE;
        hand.send(stampMs, 0x99, pad, 70);
        const message = decoder.read(Math.round(stampMs * 1000), 0x99, pad, 70);
        trace.add(message, nowMs);
        faults.receive(message);
      }
      hand.page.tick!();
    }
    run.stop();
    return run.take;
  }
  return { playTake };
}

/** Bytes in use, buffers included; those are given back on another thread, a moment later. */
async function inUse(): Promise<number> {
  for (let round = 0; round < 3; round++) {
    collect();
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return heapUsed + arrayBuffers;
}

describe('a day of practice', () => {
  const takes = longRunCount(48);

  it(`leaves memory flat over ${takes} takes of ten minutes`, async () => {
    const { playTake } = session();
    playTake(10);
    const after: number[] = [];
    for (let take = 1; take <= takes; take++) {
      playTake(10);
      if (take % longRunCount(8) === 0) after.push(await inUse());
    }
    // A take of ten minutes takes about 5 MB while it is open: none of them may stay. What other files of the process
    // give back meanwhile is no fault, so only growth counts.
    const growth = after.flatMap((late, i) => after.slice(0, i).map((early) => late - early));
    const told = after.map((bytes) => (bytes / 1e6).toFixed(2)).join(', ');
    expect(Math.max(...growth), `MB: ${told}`).toBeLessThan(2_000_000);
  });

  it('lets one take grow with its notes alone', async () => {
    const { playTake } = session();
    const bytesANote: number[] = [];
    for (const minutes of [30, 120].map((count) => longRunCount(count, 6))) {
      const before = await inUse();
      const take = playTake(minutes);
      const after = await inUse();
      expect(take.countStrokes().extras).toBe(0);
      bytesANote.push((after - before) / take.noteCount);
    }
    // Measured 1.2 kB: the notes and marks laid out, their verdicts, and the messages themselves.
    const told = bytesANote.map((bytes) => bytes.toFixed(0)).join(', ');
    for (const bytes of bytesANote) expect(bytes, `bytes a note: ${told}`).toBeLessThan(2000);
  });
});
