import { WebMidi } from 'webmidi';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { PortMemory } from '../../src/midi/port-memory';
import {
  createWebMidiSource,
  type WebMidiOptions,
  type WebMidiSource,
} from '../../src/midi/web-midi-source';
import { createFakeMidi, type FakeMidi } from './fake-midi-access';

let fake: FakeMidi;
let nowMs: number;
let source: WebMidiSource;
let heard: number[][];

/** Lets the fake's timers and webmidi's promises run. */
const settle = async () => {
  for (let i = 0; i < 4; i++) await vi.advanceTimersByTimeAsync(2);
};

async function listen(options: WebMidiOptions = {}): Promise<void> {
  source = createWebMidiSource({
    requestAccess: fake.requestMIDIAccess,
    nowMs: () => nowMs,
    ...options,
  });
  source.start((...message) => heard.push(message));
  const enabled = source.enable();
  await settle();
  await enabled;
}

beforeEach(() => {
  vi.useFakeTimers();
  // webmidi looks for these before it believes that it is in a browser
  vi.stubGlobal('window', globalThis);
  vi.stubGlobal('navigator', {});
  fake = createFakeMidi();
  nowMs = 5000;
  heard = [];
});
afterEach(async () => {
  const closed = source.close();
  await settle();
  await closed;
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

describe('asking for MIDI', () => {
  it('says when the browser has none', async () => {
    source = createWebMidiSource({ nowMs: () => nowMs });
    expect(source.state.kind).toBe('unsupported');
    await source.enable();
    expect(source.state.kind).toBe('unsupported');
  });

  it('asks once for two presses, and never for system exclusive', async () => {
    fake.plug('a', 'Tide Table Drums');
    source = createWebMidiSource({ requestAccess: fake.requestMIDIAccess });
    expect(source.state.kind).toBe('ask');
    const presses = [source.enable(), source.enable()];
    expect(source.state.kind).toBe('asking');
    await settle();
    await Promise.all(presses);
    expect(source.state.kind).toBe('ready');
    expect(fake.requests).toBe(1);
    expect(fake.sysexAsked).toBe(false);
    expect(WebMidi.inputs).toHaveLength(1);
  });

  // names of the error as measured in Chromium and told by the Web MIDI working group
  it.each([
    ['NotAllowedError', 'denied'],
    ['SecurityError', 'denied'],
    ['InvalidStateError', 'system failure'],
    ['SomethingNewError', 'system failure'],
  ])('takes %s as %s, and can be asked again', async (name, kind) => {
    fake.refuse(name);
    await listen();
    expect(source.state.kind).toBe(kind);
    expect(source.state.remedy).not.toBe('');
    fake.refuse(undefined);
    fake.plug('a', 'Tide Table Drums');
    const again = source.enable();
    await settle();
    await again;
    expect(source.state.kind).toBe('ready');
  });

  it('asks by itself only where the browser allowed it before', async () => {
    for (const [permission, requests] of [
      ['prompt', 0],
      ['granted', 1],
    ] as const) {
      source = createWebMidiSource({
        requestAccess: fake.requestMIDIAccess,
        permission: () => Promise.resolve(permission),
      });
      const asked = source.enableIfAllowed();
      await settle();
      await asked;
      expect(fake.requests).toBe(requests);
    }
  });
});

describe('choosing a port', () => {
  it('takes the only device, never the loop-back port', async () => {
    fake.plug('t', 'Midi Through Port-0 14:0');
    await listen();
    expect(source.state.kind).toBe('no device');
    fake.plug('a', 'Tide Table Drums 20:0');
    await settle();
    expect(source.state).toMatchObject({
      kind: 'ready',
      sentence: 'Listening to Tide Table Drums 20:0.',
    });
    expect(source.ports.map(({ id }) => id)).toEqual(['t', 'a']);
  });

  it('leaves the choice among several, and tells what to remember', async () => {
    fake.plug('a', 'Keys');
    fake.plug('b', 'Tide Table Drums 20:0', 'Pier');
    let memory: PortMemory | undefined;
    await listen({ remember: (one) => (memory = one) });
    expect(source.state.kind).toBe('choose');
    await source.choose('b');
    expect(source.state.kind).toBe('ready');
    expect(memory).toEqual({ manufacturer: 'Pier', name: 'Tide Table Drums', place: 0, of: 1 });
    fake.emit('a', [0x99, 60, 1], 4990);
    fake.emit('b', [0x99, 38, 2], 4991);
    expect(heard).toEqual([[4991, 0x99, 38, 2]]);
  });

  it('takes the one that is struck, and no other stroke of it is lost', async () => {
    let memory: PortMemory | undefined;
    fake.plug('a', 'Keys');
    fake.plug('b', 'Tide Table Drums', 'Pier');
    await listen({ remember: (port) => (memory = port) });
    await settle();
    expect(source.state.kind).toBe('choose');
    fake.emit('b', [0xb9, 4, 100], 4980);
    fake.emit('b', [0x99, 38, 0], 4985);
    expect(source.state.kind).toBe('choose');
    fake.emit('b', [0x99, 38, 70], 4990);
    fake.emit('b', [0x99, 36, 80], 4991);
    await settle();
    expect(source.state.kind).toBe('ready');
    expect(memory?.name).toBe('Tide Table Drums');
    expect(heard).toEqual([[4991, 0x99, 36, 80]]);
  });

  it('finds the port of last time under another number', async () => {
    fake.plug('a', 'Keys');
    fake.plug('b', 'Tide Table Drums 24:0', 'Pier');
    const remembered = { manufacturer: 'Pier', name: 'Tide Table Drums', place: 0, of: 1 };
    await listen({ remembered });
    expect(source.chosen).toBe('b');
  });

  it('changes over without hearing the old port', async () => {
    fake.plug('a', 'Keys');
    fake.plug('b', 'Drums');
    await listen();
    await source.choose('a');
    await source.choose('b');
    fake.emit('a', [0x99, 60, 1], 4990);
    fake.emit('b', [0x99, 38, 2], 4991);
    expect(heard).toEqual([[4991, 0x99, 38, 2]]);
  });

  it('says that another program holds the port, and goes on with the others', async () => {
    fake.plug('a', 'Keys');
    fake.plug('b', 'Drums');
    fake.hold('b', true);
    await listen();
    await source.choose('b');
    expect(source.state).toMatchObject({ kind: 'busy', sentence: 'Another program holds Drums.' });
    await source.choose('a');
    expect(source.state.kind).toBe('ready');
    fake.hold('b', false);
    await source.choose('b');
    expect(source.state.kind).toBe('ready');
  });
});

describe('listening', () => {
  it('gives every message its own time, unordered ones too', async () => {
    fake.plug('a', 'Drums');
    await listen();
    fake.emit('a', [0x99, 38, 70], 4980.5);
    fake.emit('a', [0x99, 36, 71], 4979.25);
    fake.emit('a', [0xd9, 12], 4990);
    expect(heard).toEqual([
      [4980.5, 0x99, 38, 70],
      [4979.25, 0x99, 36, 71],
      [4990, 0xd9, 12, 0],
    ]);
    expect(source.unstamped).toBe(0);
  });

  it.each([0, Number.NaN, 5003, 3999])('takes the present for the stamp %d', async (stamp) => {
    fake.plug('a', 'Drums');
    await listen();
    fake.emit('a', [0x99, 38, 70], stamp);
    expect(heard).toEqual([[5000, 0x99, 38, 70]]);
    expect(source.unstamped).toBe(1);
  });

  it('believes the stamps of what waited while the page stood still', async () => {
    fake.plug('a', 'Drums');
    await listen();
    await vi.advanceTimersByTimeAsync(1000);
    nowMs = 12_000;
    fake.emit('a', [0x99, 38, 70], 6000);
    // The look that was due comes amid them.
    await vi.advanceTimersByTimeAsync(1000);
    fake.emit('a', [0x99, 38, 71], 6250);
    expect(heard).toEqual([
      [6000, 0x99, 38, 70],
      [6250, 0x99, 38, 71],
    ]);
    // Two looks later everything that waited has come: an old stamp is a wrong one again.
    await vi.advanceTimersByTimeAsync(1000);
    fake.emit('a', [0x99, 38, 72], 6500);
    expect(heard[2]).toEqual([12_000, 0x99, 38, 72]);
  });

  it('drops clock, sensing and system exclusive', async () => {
    fake.plug('a', 'Drums');
    await listen();
    for (const bytes of [[0xf8], [0xfe], [0xf0, 1, 0xf7], []]) fake.emit('a', bytes, 4999);
    expect(heard).toEqual([]);
  });

  it('hears nothing while stopped, and again after a start', async () => {
    fake.plug('a', 'Drums');
    await listen();
    source.stop();
    fake.emit('a', [0x99, 38, 70], 4999);
    expect(heard).toEqual([]);
    source.start((...message) => heard.push(message));
    fake.emit('a', [0x99, 38, 70], 4999);
    expect(heard).toHaveLength(1);
  });
});

describe('unplugging', () => {
  it('goes on after a replug, each stroke once, however often', async () => {
    fake.plug('a', 'Drums');
    await listen();
    for (let i = 0; i < 3; i++) {
      fake.unplug('a');
      await settle();
      expect(source.state).toMatchObject({ kind: 'unplugged', sentence: 'Drums is unplugged.' });
      expect(fake.emit('a', [0x99, 38, 70], 4999)).toBe(false);
      fake.replug('a');
      await settle();
      expect(source.state.kind).toBe('ready');
    }
    fake.emit('a', [0x99, 38, 70], 4999);
    expect(heard).toHaveLength(1);
  });

  it('knows the kit again as a new port with another number', async () => {
    fake.plug('a', 'Drums 20:0');
    fake.plug('k', 'Keys');
    await listen();
    await source.choose('a');
    fake.unplug('a');
    await settle();
    fake.plug('b', 'Drums 24:0');
    await settle();
    expect(source.chosen).toBe('b');
    fake.emit('b', [0x99, 38, 70], 4999);
    expect(heard).toHaveLength(1);
  });

  it('does not take another device in its place', async () => {
    fake.plug('a', 'Drums');
    await listen();
    fake.plug('k', 'Keys');
    fake.unplug('a');
    await settle();
    expect(source.state.kind).toBe('unplugged');
  });

  it('sees what a silent browser does not tell', async () => {
    fake.plug('a', 'Drums');
    await listen();
    fake.silent = true;
    fake.unplug('a');
    await vi.advanceTimersByTimeAsync(1100);
    expect(source.state.kind).toBe('unplugged');
    fake.replug('a');
    await vi.advanceTimersByTimeAsync(1100);
    expect(source.state.kind).toBe('ready');
  });

  it('tells those who subscribed, until they leave', async () => {
    fake.plug('a', 'Drums');
    await listen();
    const kinds: string[] = [];
    const leave = source.subscribe(() => kinds.push(source.state.kind));
    fake.unplug('a');
    await settle();
    leave();
    fake.replug('a');
    await settle();
    expect(new Set(kinds)).toEqual(new Set(['unplugged']));
  });
});

describe('a second kit on another port', () => {
  async function two(): Promise<void> {
    fake.plug('a', 'Harbour Kit');
    await listen();
    fake.plug('b', 'Boathouse Pads');
    await settle();
    expect([source.state.kind, source.chosen]).toEqual(['ready', 'a']);
  }

  it('is told with its first stroke, which is left out, and is no longer once it is gone', async () => {
    await two();
    // Clock, controller and note-offs of whatever else is plugged in are no strokes.
    for (const bytes of [[0xf8], [0xb0, 4, 90], [0x80, 38, 64], [0x99, 38, 0]])
      fake.emit('b', bytes, 5000);
    expect(source.secondKit).toBeUndefined();
    const told = vi.fn();
    source.subscribe(told);
    fake.emit('b', [0x99, 38, 1], 5000);
    fake.emit('b', [0x99, 38, 100], 5000);
    fake.emit('a', [0x99, 36, 90], 5000);
    expect(told).toHaveBeenCalledOnce();
    expect(source.secondKit).toBe('Boathouse Pads');
    expect(heard).toEqual([[5000, 0x99, 36, 90]]);
    fake.unplug('b');
    await settle();
    expect(source.secondKit).toBeUndefined();
  });

  it('is the one that is not chosen', async () => {
    await two();
    fake.emit('b', [0x99, 38, 100], 5000);
    await source.choose('b');
    expect(source.secondKit).toBeUndefined();
    fake.emit('b', [0x99, 38, 100], 5000);
    fake.emit('a', [0x99, 36, 90], 5000);
    expect(source.secondKit).toBe('Harbour Kit');
    expect(heard).toEqual([[5000, 0x99, 38, 100]]);
  });

  it('is nothing to tell of while none is chosen, or somebody else plays', async () => {
    fake.plug('a', 'Harbour Kit');
    fake.plug('b', 'Boathouse Pads');
    await listen();
    expect(source.state.kind).toBe('choose');
    fake.emit('b', [0x99, 38, 100], 5000);
    expect(source.secondKit).toBeUndefined();
    await source.choose('a');
    source.stop();
    fake.emit('b', [0x99, 38, 100], 5000);
    expect(source.secondKit).toBeUndefined();
  });
});
