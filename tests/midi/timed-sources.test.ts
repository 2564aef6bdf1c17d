import { describe, expect, it } from 'vitest';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { createFileSource } from '../../src/midi/file-source';
import { createSimulatedSource } from '../../src/midi/simulated-source';
import type { Note } from '../../src/phrase/model/note';
import { simulate } from '../../src/take/simulate';
import type { Plan } from '../../src/match/plan';
import type { TimedNote } from '../../src/match/timed-note';
import type { PlayedTo } from '../../src/midi/stroke-source';
import type { Timers } from '../../src/midi/timed-messages';
import { beats } from '../../src/time/beats';
import { tempoMap } from '../../src/time/tempo';
import { phraseOf } from '../phrase/phrase-of';
import { manualTimers } from './manual-timers';

const at = (timeMs: number, data1 = 38) => ({
  timeUs: timeMs * 1000,
  status: 0x99,
  data1,
  data2: 64,
});
const snare: Note = {
  onset: beats(0),
  graceStep: 0,
  graceOf: undefined,
  bar: 1,
  beat: beats(1),
  cycle: 1,
  position: 1,
  limb: 'R',
  voice: 'snare',
  level: 'tap',
  layers: [1],
};

describe('createFileSource', () => {
  it('sends each message when it is due, in time order', () => {
    const timers = manualTimers(1000);
    const heard: number[] = [];
    const source = createFileSource('Regatta', [at(100), at(-50), at(40)], GENERAL_MIDI, timers);
    source.start((timeMs) => heard.push(timeMs));
    source.playTo({ originMs: 2000 });
    timers.advance(949);
    expect(heard).toEqual([]);
    timers.advance(1);
    expect(heard).toEqual([1950]);
    timers.advance(200);
    expect(heard).toEqual([1950, 2040, 2100]);
  });

  it('stamps the times that were meant, and late timers do not add up', () => {
    const timers = manualTimers(0, 7);
    const heard: [number, number][] = [];
    const messages = Array.from({ length: 1000 }, (_, i) => at(i * 50));
    const source = createFileSource('Regatta', messages, undefined, timers);
    source.start((timeMs) => heard.push([timeMs, timers.nowMs()]));
    source.playTo({ originMs: 100 });
    timers.advance(60_000);
    expect(heard.map(([meant]) => meant)).toEqual(
      messages.map(({ timeUs }) => 100 + timeUs / 1000),
    );
    expect(Math.max(...heard.map(([meant, sent]) => sent - meant))).toBe(7);
  });

  it('leaves out what is past when it joins in', () => {
    const timers = manualTimers(1000);
    const heard: number[] = [];
    const source = createFileSource('Regatta', [at(-1), at(0), at(40)], GENERAL_MIDI, timers);
    source.start((timeMs) => heard.push(timeMs));
    source.playTo({ originMs: 1000 });
    timers.advance(200);
    expect(heard).toEqual([1000, 1040]);
  });

  it('tells when it plays and when it is over; stop silences it', () => {
    const timers = manualTimers(0);
    const kinds: string[] = [];
    const heard: number[] = [];
    const source = createFileSource('Regatta', [at(10), at(500)], undefined, timers);
    source.subscribe(() => kinds.push(source.state.kind));
    source.start((timeMs) => heard.push(timeMs));
    source.playTo({ originMs: 0 });
    timers.advance(1000);
    source.playTo({ originMs: 2000 });
    timers.advance(1100);
    source.stop();
    timers.advance(9000);
    expect(kinds).toEqual(['playing', 'ended', 'playing', 'waiting']);
    expect(heard).toEqual([10, 500, 2010]);
  });
});

/** A take whose bar 1 beat 1 falls on `originMs`: a snare stroke each `everyUs`, as far as asked for. */
function target(timers: Timers, originMs: number, everyUs: number, count: number): PlayedTo {
  const notes = Array.from({ length: count }, (_, i) => ({
    note: snare,
    timeUs: i * everyUs,
    passage: 0,
    layer: 1,
    reachUs: 100_000,
    toleranceUs: 35_000,
  }));
  const plan: Plan = {
    phrase: phraseOf({}),
    passages: [{ fromBar: 1, layer: 1 }],
    tempo: tempoMap([{ fromBeat: beats(0), bpm: 90 }]),
    windows: {},
  };
  return {
    originMs,
    nowUs: () => Math.round((timers.nowMs() - originMs) * 1000),
    timeline: { notes, plan },
  };
}

describe('createSimulatedSource', () => {
  it('plays what simulate plays, around the times the take gives', () => {
    const timers = manualTimers(0);
    const faults = { spreadMs: 10, extra: 0.2, missed: 0.1 };
    const take = target(timers, 3000, 125_000, 100);
    const heard: number[][] = [];
    const source = createSimulatedSource(faults, 9, GENERAL_MIDI, timers);
    source.start((timeMs, _, ...data) => heard.push([Math.round(timeMs * 1000), ...data]));
    source.playTo(take);
    timers.advance(20_000);
    expect(heard).toEqual(
      simulate(take.timeline.notes, faults, 9).messages.map(({ timeUs, data1, data2 }) => [
        3_000_000 + timeUs,
        data1,
        data2,
      ]),
    );
  });

  it('plays the same again after a stop', () => {
    const timers = manualTimers(0);
    const source = createSimulatedSource({ spreadMs: 10 }, 2, GENERAL_MIDI, timers);
    const rounds = [0, 10_000].map((startMs) => {
      const heard: number[] = [];
      source.start((timeMs) => heard.push(Math.round((timeMs - startMs) * 1000)));
      source.playTo(target(timers, startMs + 100, 500_000, 5));
      timers.advance(10_000);
      source.stop();
      return heard;
    });
    expect(rounds[0]).toHaveLength(5);
    expect(rounds[1]).toEqual(rounds[0]);
  });

  it('reads what is laid out later, and nothing that may still change', () => {
    const timers = manualTimers(0);
    const source = createSimulatedSource({}, 2, GENERAL_MIDI, timers);
    const heard: number[] = [];
    source.start((timeMs) => heard.push(timeMs));
    const take = target(timers, 0, 1_000_000, 4);
    // A change of tempo gives 1.2 s of notice: note 3 becomes another one then.
    source.playTo(take);
    timers.advance(1_750);
    const notes = take.timeline.notes as TimedNote[];
    notes[3] = { ...notes[3]!, timeUs: 3_400_000 };
    notes.push({ ...notes[3], timeUs: 3_900_000 });
    timers.advance(5_000);
    expect(heard).toEqual([0, 1000, 2000, 3400, 3900]);
  });

  it('joins in the middle with what is not past, and rests when stopped', () => {
    const timers = manualTimers(2_500);
    const source = createSimulatedSource({}, 2, GENERAL_MIDI, timers);
    const heard: number[] = [];
    source.start((timeMs) => heard.push(timeMs));
    source.playTo(target(timers, 0, 1_000_000, 9));
    timers.advance(2_000);
    source.stop();
    timers.advance(9_000);
    expect(heard).toEqual([3000, 4000]);
  });
});
