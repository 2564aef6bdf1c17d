import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import type { Kit } from '../../src/kit/kit';
import { KitDecoder } from '../../src/kit/kit-decoder';
import type { PlayedTo } from '../../src/midi/stroke-source';
import type { WebMidiState } from '../../src/midi/web-midi-source';
import type { MessageTap } from '../../src/practice/inputs/inputs.svelte';
import { AUDIO_STATES, type AudioState } from '../../src/sound/audio-state';
import type { AudioEngine } from '../../src/sound/audio-engine';
import type { TakeJournal } from '../../src/store/take-journal';
import { good } from '../../src/time/result';
import { exactMap, FakeOutput } from '../sound/fake-output';

const STEP_MS = 50;

/** Writes nothing down, and says that it did. */
export const NO_JOURNAL: Pick<TakeJournal, 'begin'> = {
  begin: () => ({
    id: 'a',
    keep: async () => good(undefined),
    end: async () => undefined,
    leave: () => undefined,
  }),
};

/** A page whose clocks, pump, kit and output a test turns by hand: what a transport and its users work with. */
export function handPage({ nowMs = 10_000, audioAheadMs = 0, kit = GENERAL_MIDI } = {}) {
  const output = new FakeOutput();
  const page = {
    nowMs,
    sound: AUDIO_STATES.running as AudioState,
    tick: undefined as (() => void) | undefined,
    isScreenOn: false,
    /** Times the rig was looked at: once a tick. */
    looks: 0,
    followed: undefined as PlayedTo | undefined,
    player: undefined as string | undefined,
  };
  let tap: MessageTap | undefined;
  let decoder = new KitDecoder(kit);
  const setClock = (ms: number) => {
    page.nowMs = ms;
    output.currentSeconds = (ms + audioAheadMs) / 1000;
  };
  setClock(nowMs);
  const engine = Object.assign(output, {
    context: {} as AudioContext,
    start: async () => page.sound,
    observe: () => undefined,
    onState: () => () => undefined,
    setVolume: () => undefined,
    prepare: () => undefined,
  }) as unknown as AudioEngine;
  const dependencies = {
    engine,
    clockMap: exactMap(audioAheadMs),
    inputs: {
      player: 'kit' as const,
      playedKit: kit,
      kitAway: undefined as WebMidiState | undefined,
      tap: (next: MessageTap) => {
        tap = next;
        return () => (tap = undefined);
      },
      follow: (target: PlayedTo) => {
        page.followed = target;
        decoder.reset();
        return () => (page.followed = undefined);
      },
      choosePlayer: (player: string) => void (page.player = player),
    },
    rigs: {
      look: () => void page.looks++,
      beginTake: () => 0,
      refresh: async () => undefined,
      remember: () => undefined as void,
    },
    nowMs: () => page.nowMs,
    pump: (onTick: () => void) => {
      page.tick = onTick;
      return () => (page.tick = undefined);
    },
    screenOn: () => {
      page.isScreenOn = true;
      return { release: () => (page.isScreenOn = false) };
    },
  };
  return {
    page,
    output,
    dependencies,
    isTapped: () => tap !== undefined,
    /** A raw message with its own time on the performance clock, ms. */
    send: (timeMs: number, status: number, data1: number, data2: number) =>
      tap?.onMessage(decoder.read(Math.round(timeMs * 1000), status, data1, data2)),
    /** The notes mean something else from now on. */
    useKit: (next: Kit) => {
      decoder = new KitDecoder(next);
      tap?.onKit?.(decoder);
    },
    /** Passes time with the pump running, for as long as it does. */
    passTo: (ms: number) => {
      while (page.nowMs < ms && page.tick) {
        setClock(Math.min(ms, page.nowMs + STEP_MS));
        page.tick();
      }
    },
    /** Passes time in which the pump does not run. */
    freezeTo: setClock,
  };
}
