import { describe, expect, it } from 'vitest';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { createFileSource } from '../../src/midi/file-source';
import { createSimulatedSource } from '../../src/midi/simulated-source';
import type { Note } from '../../src/phrase/model/note';
import { simulate } from '../../src/take/simulate';
import { beats } from '../../src/time/beats';
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
    source.playFrom(2000);
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
    source.playFrom(100);
    timers.advance(60_000);
    expect(heard.map(([meant]) => meant)).toEqual(
      messages.map(({ timeUs }) => 100 + timeUs / 1000),
    );
    expect(Math.max(...heard.map(([meant, sent]) => sent - meant))).toBe(7);
  });

  it('tells when it plays and when it is over; stop silences it', () => {
    const timers = manualTimers(0);
    const kinds: string[] = [];
    const heard: number[] = [];
    const source = createFileSource('Regatta', [at(10), at(500)], undefined, timers);
    source.subscribe(() => kinds.push(source.state.kind));
    source.start((timeMs) => heard.push(timeMs));
    source.playFrom(0);
    timers.advance(1000);
    source.playFrom(2000);
    timers.advance(1100);
    source.stop();
    timers.advance(9000);
    expect(kinds).toEqual(['playing', 'ended', 'playing', 'waiting']);
    expect(heard).toEqual([10, 500, 2010]);
  });
});

describe('createSimulatedSource', () => {
  it('plays what simulate plays, around the times the session gives', () => {
    const timers = manualTimers(0);
    const faults = { spreadMs: 10, extra: 0.2, missed: 0.1 };
    const notes = Array.from({ length: 100 }, (_, i) => ({ note: snare, timeUs: i * 125_000 }));
    const heard: number[][] = [];
    const source = createSimulatedSource(faults, 9, GENERAL_MIDI, timers);
    source.start((timeMs, _, ...data) => heard.push([Math.round(timeMs * 1000), ...data]));
    notes.forEach(({ note, timeUs }) => source.append(note, timeUs, 3000 + timeUs / 1000));
    timers.advance(20_000);
    expect(heard).toEqual(
      simulate(notes, faults, 9).messages.map(({ timeUs, data1, data2 }) => [
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
      for (let i = 0; i < 5; i++) source.append(snare, i * 500_000, startMs + 100 + i * 500);
      timers.advance(10_000);
      source.stop();
      return heard;
    });
    expect(rounds[0]).toHaveLength(5);
    expect(rounds[1]).toEqual(rounds[0]);
  });
});
