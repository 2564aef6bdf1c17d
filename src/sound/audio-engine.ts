import type { Voice } from '../phrase/model/voice';
import { readClocks, type ClockReading } from '../clock/clock-reading';
import type { AudioBus, AudioGraph } from './audio-graph';
import { AUDIO_STATES, type AudioState } from './audio-state';
import { createFreezeWatch, FROZEN_AFTER_MS } from './freeze-watch';
import { createSilenceCheck } from './silence-check';
import { COUNT_WORDS, type SoundEvent } from './sound-event';
import type { SoundOutput } from './sound-output';

/**
 * Chosen low, -14 dB: a page cannot measure how loud headphones are (WHO-ITU H.870 advises 80 dBA for
 * at most 40 hours a week), so it starts soft and leaves the rest to the player.
 */
const DEFAULT_VOLUME = 0.2;

export interface AudioEngine extends SoundOutput {
  readonly state: AudioState;
  /** The native context, for what it tells of its output and for recording; undefined before the start. */
  readonly context: AudioContext | undefined;
  /** Calls `listener` at each change of state; the returned function ends that. */
  onState(listener: (state: AudioState) => void): () => void;
  /**
   * Starts or revives the sound. Call it from a gesture; settles, never rejects, when the sound runs
   * or has said why not. May be called again at any time.
   */
  start(): Promise<AudioState>;
  /** For the pump: reads both clocks and looks whether the sound is alive. Undefined before the start. */
  observe(): ClockReading | undefined;
  /** Sounds at once, for a pad that was just struck. Without effect while nothing runs. */
  playNow(event: SoundEvent): void;
  /** Makes the samples of these voices ahead of their first stroke, and of all words of a count. */
  prepare(voices: readonly Voice[], withCount?: boolean): void;
  /** Linear gain, 0 to 1. */
  setVolume(volume: number): void;
  close(): void;
}

export interface AudioEngineParts {
  /** What makes the sound comes when it is needed. */
  readonly loadGraph: () => Promise<Pick<typeof import('./audio-graph'), 'createAudioGraph'>>;
  readonly newContext: () => AudioContext;
  readonly page: Pick<Document, 'visibilityState' | 'addEventListener' | 'removeEventListener'>;
  readonly nowMs: () => number;
  readonly wait: (ms: number) => Promise<void>;
}

/** Ahead of the first start, so that it waits for nothing. */
export const loadAudioGraph = () => import('./audio-graph');

const browserParts = (): AudioEngineParts => ({
  loadGraph: loadAudioGraph,
  newContext: () => new AudioContext({ latencyHint: 'interactive' }),
  page: document,
  nowMs: () => performance.now(),
  wait: (ms) => new Promise((resolve) => setTimeout(resolve, ms)),
});

const GESTURES = ['pointerdown', 'keydown'] as const;
const LOOK_EVERY_MS = 20;

/** The one audio context of the page with everything that sounds on it. Nothing is made before `start`. */
export function createAudioEngine(parts: AudioEngineParts = browserParts()): AudioEngine {
  const { page, nowMs, wait } = parts;
  const listeners = new Set<(state: AudioState) => void>();
  let state: AudioState = AUDIO_STATES.off;
  let graph: AudioGraph | undefined;
  let direct: AudioBus | undefined;
  let freeze = createFreezeWatch();
  let silence = createSilenceCheck();
  let volume = DEFAULT_VOLUME;
  let starting: Promise<AudioState> | undefined;
  let closed = false;

  const tell = (next: AudioState): AudioState => {
    if (next === state) return state;
    state = next;
    for (const listener of listeners) listener(next);
    return next;
  };
  const dropGraph = () => {
    graph?.close();
    graph = direct = undefined;
  };
  const build = ({ createAudioGraph }: Awaited<ReturnType<AudioEngineParts['loadGraph']>>) => {
    dropGraph();
    graph = createAudioGraph(parts.newContext(), volume);
    direct = graph.openBus();
    freeze = createFreezeWatch();
    silence = createSilenceCheck();
    graph.native.addEventListener('statechange', () => observe());
  };
  /** Whether audio time moves within the time a frozen context is given. */
  const moves = async (native: AudioContext): Promise<boolean> => {
    const fromSeconds = native.currentTime;
    for (let ms = 0; ms < FROZEN_AFTER_MS; ms += LOOK_EVERY_MS) {
      await wait(LOOK_EVERY_MS);
      if (native.currentTime > fromSeconds) return true;
    }
    return false;
  };
  const revive = async (): Promise<AudioState> => {
    const sound = await parts.loadGraph().catch(() => undefined);
    if (!sound) return tell(AUDIO_STATES.notLoaded);
    for (const attempt of ['first', 'anew'] as const) {
      if (closed) return state;
      if (!graph || attempt === 'anew') build(sound);
      const { native } = graph!;
      // Without a gesture this promise may stay open for ever, so the clock is watched instead.
      native.resume().catch(() => undefined);
      if (await moves(native)) return tell(AUDIO_STATES.running);
      if (native.state !== 'running') return tell(AUDIO_STATES.suspended);
    }
    return tell(AUDIO_STATES.frozen);
  };
  const start = (): Promise<AudioState> => {
    starting ??= revive()
      .catch(() => tell(AUDIO_STATES.unsupported))
      .finally(() => (starting = undefined));
    return starting;
  };
  const reviveIfNeeded = () => {
    if (graph && state.name !== 'running' && page.visibilityState === 'visible') void start();
  };
  const observe = (): ClockReading | undefined => {
    if (!graph) return undefined;
    const { native } = graph;
    const reading = readClocks(native, nowMs);
    if (starting) return reading;
    if (native.state !== 'running') {
      freeze = createFreezeWatch();
      tell(AUDIO_STATES.suspended);
    } else if (freeze.isFrozen(reading.nowMs, reading.currentSeconds)) tell(AUDIO_STATES.frozen);
    else if (state !== AUDIO_STATES.silent) tell(AUDIO_STATES.running);
    if (silence.isSilent(reading.currentSeconds, graph.recentPeak)) tell(AUDIO_STATES.silent);
    return reading;
  };
  for (const gesture of GESTURES) page.addEventListener(gesture, reviveIfNeeded);
  page.addEventListener('visibilitychange', reviveIfNeeded);

  return {
    start,
    observe,
    get state() {
      return state;
    },
    get context() {
      return graph?.native;
    },
    get running() {
      return graph !== undefined && (state.name === 'running' || state === AUDIO_STATES.silent);
    },
    get currentSeconds() {
      return graph?.native.currentTime ?? 0;
    },
    onState(listener) {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    openQueue() {
      let owner: AudioGraph | undefined;
      let bus: AudioBus | undefined;
      return {
        play(event, atSeconds) {
          if (!graph) return { cancel: () => undefined };
          if (owner !== graph) {
            owner = graph;
            bus = graph.openBus();
          }
          silence.expect(atSeconds);
          return bus!.play(event, atSeconds);
        },
        close: () => bus?.close(),
      };
    },
    playNow: (event) => void direct?.play(event),
    prepare: (voices, withCount = false) => graph?.prepare(voices, withCount ? COUNT_WORDS : []),
    setVolume(next) {
      volume = next;
      graph?.setVolume(next);
    },
    close() {
      closed = true;
      for (const gesture of GESTURES) page.removeEventListener(gesture, reviveIfNeeded);
      page.removeEventListener('visibilitychange', reviveIfNeeded);
      dropGraph();
      tell(AUDIO_STATES.off);
    },
  };
}
