import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { EDGE_AND_RIM, GENERAL_MIDI } from '../../../src/kit/built-in-kits';
import type { KitDecoder, KitMessage } from '../../../src/kit/kit-decoder';
import { STROKE, UNMAPPED } from '../../../src/kit/kit-reader';
import { withPad } from '../../../src/kit/edit-kit';
import { plainTimeline } from '../../../src/live/live-timeline';
import { createWebMidiSource } from '../../../src/midi/web-midi-source';
import type { StrokeSink } from '../../../src/midi/stroke-source';
import { Inputs } from '../../../src/practice/inputs/inputs.svelte';
import { KitPort } from '../../../src/practice/inputs/kit-port.svelte';
import type { OwnText } from '../../../src/store/tables';
import { SettingsStore } from '../../../src/store/settings-store';
import { storeProblem, type StoreProblem } from '../../../src/store/store-problem';
import { VOICES } from '../../../src/phrase/model/voice';
import { bad, good } from '../../../src/time/result';
import { phraseOf } from '../../phrase/phrase-of';

beforeEach(() => localStorage.clear());

/** Inputs with a kit whose messages a test sends, and a shelf of kits. */
function rig(problem?: StoreProblem, isAnswered = true) {
  let sink: StrokeSink | undefined;
  const port = new KitPort(new SettingsStore(), (options) =>
    Object.assign(createWebMidiSource({ ...options, permission: async () => 'prompt' }), {
      start: (next: StrokeSink) => (sink = next),
      stop: () => (sink = undefined),
    }),
  );
  const sounded: string[] = [];
  const inputs = new Inputs(
    {
      engine: {
        playNow: (event) => sounded.push(event.kind === 'voice' ? event.voice : event.kind),
        prepare: () => undefined,
      },
      settings: new SettingsStore(),
      kits: {
        put: async () => (problem ? bad(problem) : good(undefined)),
        list: async () => ({ texts: [] as OwnText[], problem: undefined }),
        setAside: () => undefined,
        remove: async () => ({ ok: true, value: undefined }),
      },
    },
    port,
  );
  if (isAnswered) inputs.choosePlayer('kit');
  const heard: (string | number | undefined)[][] = [];
  const listen = (name: string, onKit?: (decoder: KitDecoder) => void) =>
    inputs.tap({
      onMessage: ({ timeUs, kind, voiceNumber, pad }: KitMessage) =>
        heard.push([name, timeUs, kind === STROKE ? VOICES[voiceNumber] : kind, pad]),
      ...(onKit && { onKit }),
    });
  return {
    inputs,
    heard,
    sounded,
    listen,
    send: (timeMs: number, ...bytes: [number, number, number]) => sink?.(timeMs, ...bytes),
  };
}

describe('who plays', () => {
  it('is nobody’s choice at first: the kit is waited for, and no simulated player stands in', () => {
    const first = rig(undefined, false).inputs;
    expect(first.player).toBe('kit');
    expect(first.isUnasked).toBe(true);
    expect(first.kitAway?.kind).toMatch(/ask|unsupported/);
    first.choosePlayer('kit');
    expect(first.isUnasked).toBe(false);
    expect(rig(undefined, false).inputs.isUnasked).toBe(false);
  });

  it('is on the kit that was called otherwise before', () => {
    const { inputs } = rig();
    inputs.chooseKit({ ...EDGE_AND_RIM, title: 'Edge and rim zones' });
    expect(inputs.kit).toBe(EDGE_AND_RIM);
  });
});

describe('what is played', () => {
  it('is decoded once and goes to all who listen, as long as they do', () => {
    const { send, listen, heard } = rig();
    const stop = listen('a');
    listen('b');
    send(5.0004, 0x99, 38, 90);
    stop();
    send(6, 0x99, 3, 90);
    expect(heard).toEqual([
      ['a', 5000, 'snare', 38],
      ['b', 5000, 'snare', 38],
      ['b', 6000, UNMAPPED, 3],
    ]);
  });

  it('comes from the chosen player alone; pads sound, a kit sounds by itself', () => {
    const { inputs, send, listen, heard, sounded } = rig();
    listen('a');
    inputs.touchPad('snare', 80, 1);
    send(2, 0x99, 36, 80);
    expect(sounded).toEqual([]);
    inputs.choosePlayer('keyboard and pads');
    send(3, 0x99, 36, 80);
    inputs.touchPad('snare', 80, 4);
    expect(heard.map(([, timeUs]) => timeUs)).toEqual([2000, 4000]);
    expect(sounded).toEqual(['snare']);
  });

  it('is traced when a kit sent it', () => {
    const { inputs, send } = rig();
    send(1, 0x99, 38, 80);
    inputs.choosePlayer('keyboard and pads');
    inputs.touchPad('snare', 80, 2);
    expect(inputs.monitor.trace.count).toBe(1);
  });

  it('of the kit keeps its faults over the takes, until they are counted anew', () => {
    const { inputs, send } = rig();
    const timeline = plainTimeline(phraseOf({}), 1, 90);
    for (let take = 0; take < 3; take++) {
      const end = inputs.follow({ originMs: 0, nowUs: () => 0, timeline });
      send(1000 * take, 0x99, 38, 120);
      send(1000 * take + 10, 0x99, 38, 12);
      end();
    }
    expect(inputs.monitor.faults.map(({ fault, count }) => [fault, count])).toEqual([
      ['double triggers', 3],
    ]);
    inputs.monitor.countAnew();
    expect(inputs.monitor.faults).toEqual([]);
  });

  it('begins anew with a take: a stroke from before it sets nothing aside', () => {
    const { inputs, send } = rig();
    const setAside: number[] = [];
    inputs.tap({ onMessage: (message) => setAside.push(message.setAside) });
    const timeline = plainTimeline(phraseOf({}), 1, 90);
    send(1000, 0x99, 38, 120);
    inputs.follow({ originMs: 0, nowUs: () => 0, timeline });
    send(1010, 0x99, 38, 12);
    send(1020, 0x99, 38, 120);
    send(1030, 0x99, 38, 12);
    expect(setAside).toEqual([0, 0, 0, 1]);
  });
});

describe('a note that is not on the map', () => {
  const SHOWN_MS = 120;
  afterEach(() => vi.useRealTimers());

  /** Notes and strokes, as they are told once a stroke would be shown. */
  function struck(...notes: number[]) {
    vi.useFakeTimers();
    const parts = rig();
    for (const note of notes) parts.send(1, 0x99, note, 80);
    vi.advanceTimersByTime(SHOWN_MS);
    const told = () =>
      parts.inputs.monitor.unknown.map(({ note, strokes }) => `${note}: ${strokes}`);
    return { ...parts, told };
  }

  it('is told with its strokes, the most struck first; a mapped one is not', () => {
    const { told } = struck(31, 38, 91, 31, 36);
    expect(told()).toEqual(['31: 2', '91: 1']);
  });

  it('is read a few times a second, not at each stroke', () => {
    const { told, send } = struck(31);
    send(2, 0x99, 31, 80);
    vi.advanceTimersByTime(SHOWN_MS - 1);
    expect(told()).toEqual(['31: 1']);
    vi.advanceTimersByTime(1);
    expect(told()).toEqual(['31: 2']);
  });

  it('is told no more once it has a voice, is left out, or is counted anew', async () => {
    const { told, inputs } = struck(31, 91, 92);
    await inputs.mapNote(31, 'snare');
    expect(told()).toEqual(['91: 1', '92: 1']);
    inputs.monitor.leaveOut(92);
    expect(told()).toEqual(['91: 1']);
    inputs.monitor.countAnew();
    expect(told()).toEqual([]);
  });
});

it('misses the kit only where the kit is to play', () => {
  const { inputs } = rig();
  // No test page has a kit.
  expect(inputs.kitAway).toBe(inputs.port.state);
  inputs.choosePlayer('simulated player');
  expect(inputs.kitAway).toBeUndefined();
});

describe('a note that gets a voice', () => {
  it('is in an own kit from then on, and who listens is told', async () => {
    const { inputs, send, listen, heard } = rig();
    const kits: string[] = [];
    listen('a', ({ kit }) => kits.push(kit.title));
    const mapped = await inputs.mapNote(91, 'cowbell');
    expect(mapped).toMatchObject({ ok: true, value: { title: 'Common electronic kit, my notes' } });
    send(1, 0x99, 91, 80);
    expect(heard).toEqual([['a', 1000, 'cowbell', 91]]);
    expect(kits).toEqual(['Common electronic kit, my notes']);
  });

  it('is played on even when the kit goes with the page, which is told', async () => {
    const { inputs } = rig(storeProblem('FULL'));
    expect(await inputs.mapNote(91, 'cowbell')).toEqual({
      ok: false,
      errors: [{ code: 'ONLY_IN_MEMORY', message: storeProblem('FULL').message }],
    });
    expect(inputs.kit.title).toBe('Common electronic kit, my notes');
  });

  it('and a kit that is none changes nothing', async () => {
    const { inputs } = rig();
    const none = withPad(EDGE_AND_RIM, 500, 'snare', 'None');
    expect(await inputs.saveKit(none)).toMatchObject({ ok: false, errors: [{ code: 'NO_KIT' }] });
    expect(inputs.kit).toBe(EDGE_AND_RIM);
  });
});

describe('a take', () => {
  it('is played to by the simulated player, who goes on with other faults', async () => {
    const { inputs, listen, heard } = rig();
    const originMs = performance.now() + 30;
    const timeline = plainTimeline(phraseOf({ grouping: 'R', tempoBpm: 300 }), 1, 300);
    timeline.extendTo(2_000_000);
    inputs.choosePlayer('simulated player');
    inputs.setFaults({});
    expect(inputs.playedKit).toBe(GENERAL_MIDI);
    listen('a');
    const nowUs = () => Math.round((performance.now() - originMs) * 1000);
    const end = inputs.follow({ originMs, nowUs, timeline });
    await expect.poll(() => heard.length).toBeGreaterThan(3);
    inputs.setFaults({ biasMs: 5 });
    const before = heard.length;
    await expect.poll(() => heard.length).toBeGreaterThan(before + 3);
    end();
    const offsets = heard.map(([, timeUs]) => (Number(timeUs) - originMs * 1000) % 50_000);
    // Parts of a microsecond before a whole partial are a whole partial less them.
    expect(Math.min(offsets[0]!, 50_000 - offsets[0]!)).toBeLessThan(1);
    expect(offsets.at(-1)).toBeCloseTo(5000, -1);
  });
});
