import { describe, expect, it } from 'vitest';
import type { AudioGraph } from '../../src/sound/audio-graph';
import { createAudioEngine } from '../../src/sound/audio-engine';
import { FROZEN_AFTER_MS } from '../../src/sound/freeze-watch';
import type { SoundEvent } from '../../src/sound/sound-event';

const CLICK: SoundEvent = { kind: 'click', timeUs: 0, sound: 'bar', velocity: 100 };

/** A native context whose clock runs with the rig's while it is `running` and not `frozen`. */
class FakeContext extends EventTarget {
  currentTime = 0;
  frozen = false;
  closed = false;
  resumed = 0;
  constructor(public state: AudioContextState = 'running') {
    super();
  }
  async resume() {
    this.resumed++;
  }
  become(state: AudioContextState) {
    this.state = state;
    this.dispatchEvent(new Event('statechange'));
  }
}

function rig(contexts: readonly FakeContext[]) {
  let ms = 1000;
  let peak = 0.5;
  const page = Object.assign(new EventTarget(), {
    visibilityState: 'visible',
  });
  const played: { bus: number; atSeconds: number | undefined }[] = [];
  let buses = 0;
  let used = 0;
  const advance = (byMs: number) => {
    ms += byMs;
    for (const context of contexts)
      if (context.state === 'running' && !context.frozen) context.currentTime += byMs / 1000;
  };
  const told: string[] = [];
  const createAudioGraph = (native: AudioContext): AudioGraph => ({
    native,
    setVolume: () => undefined,
    openBus: () => {
      const bus = ++buses;
      return {
        play: (_event, atSeconds) => {
          played.push({ bus, atSeconds });
          return { cancel: () => undefined };
        },
        close: () => undefined,
      };
    },
    recentPeak: () => peak,
    prepare: () => undefined,
    close: () => void ((native as unknown as FakeContext).closed = true),
  });
  const parts = {
    loadGraph: async () => ({ createAudioGraph }),
    newContext: () => {
      const context = contexts[used++];
      if (!context) throw new ReferenceError('AudioContext is not defined');
      return context as unknown as AudioContext;
    },
    page: page as unknown as Document,
    nowMs: () => ms,
    wait: async (byMs: number) => advance(byMs),
  };
  const engine = createAudioEngine(parts);
  engine.onState((state) => told.push(state.name));
  return {
    engine,
    page,
    parts,
    played,
    told,
    advance,
    setPeak: (value: number) => (peak = value),
    usedContexts: () => used,
  };
}

describe('the audio engine', () => {
  it('makes nothing before the start', () => {
    const { engine, usedContexts } = rig([]);
    expect(engine.state.name).toBe('off');
    expect(engine.running).toBe(false);
    expect(engine.observe()).toBeUndefined();
    expect(usedContexts()).toBe(0);
  });

  it('runs after the start, and reads both clocks', async () => {
    const { engine, advance } = rig([new FakeContext()]);
    expect((await engine.start()).name).toBe('running');
    advance(100);
    expect(engine.observe()).toMatchObject({ nowMs: 1120, currentSeconds: expect.closeTo(0.12) });
    expect(engine.running).toBe(true);
  });

  it('starts one context however often it is asked', async () => {
    const { engine, usedContexts } = rig([new FakeContext()]);
    await Promise.all([engine.start(), engine.start()]);
    await engine.start();
    expect(usedContexts()).toBe(1);
  });

  it('asks for a gesture when the browser holds the sound back, and runs after it', async () => {
    const context = new FakeContext('suspended');
    const { engine, page, told } = rig([context]);
    expect((await engine.start()).sentence).toContain('Click anywhere');
    context.state = 'running';
    page.dispatchEvent(new Event('pointerdown'));
    await engine.start();
    expect(told).toEqual(['suspended', 'running']);
    expect(context.resumed).toBe(2);
  });

  it('comes back when the page is seen again after the system paused the sound', async () => {
    const context = new FakeContext();
    const { engine, page, told } = rig([context]);
    await engine.start();
    context.become('suspended');
    expect(engine.running).toBe(false);
    context.state = 'running';
    page.dispatchEvent(new Event('visibilitychange'));
    await engine.start();
    expect(told).toEqual(['running', 'suspended', 'running']);
  });

  it('builds the context anew once when it says it runs and stands still', async () => {
    const dead = new FakeContext();
    dead.frozen = true;
    const { engine } = rig([dead, new FakeContext()]);
    expect((await engine.start()).name).toBe('running');
    expect(dead.closed).toBe(true);
  });

  it('gives up with a sentence when the second one stands still too', async () => {
    const contexts = [new FakeContext(), new FakeContext()];
    for (const context of contexts) context.frozen = true;
    const { engine } = rig(contexts);
    expect(await engine.start()).toMatchObject({
      name: 'failed',
      sentence: expect.stringContaining('stands still'),
    });
  });

  it('tells when the sound stands still in the middle, and when it goes on', async () => {
    const context = new FakeContext();
    const { engine, advance, told } = rig([context]);
    await engine.start();
    engine.observe();
    context.frozen = true;
    for (let ms = 0; ms <= FROZEN_AFTER_MS; ms += 100) {
      advance(100);
      engine.observe();
    }
    expect(engine.running).toBe(false);
    context.frozen = false;
    advance(100);
    engine.observe();
    expect(told).toEqual(['running', 'failed', 'running']);
  });

  it('says so when there is no Web Audio, and when the sound part does not load', async () => {
    const none = rig([]);
    expect((await none.engine.start()).sentence).toContain('This browser');
    const { parts } = rig([new FakeContext()]);
    const offline = createAudioEngine({ ...parts, loadGraph: () => Promise.reject(new Error()) });
    expect((await offline.start()).sentence).toContain('did not load');
  });

  it('tells when the first click comes due and nothing comes out, and keeps running', async () => {
    const { engine, advance, setPeak, told } = rig([new FakeContext()]);
    await engine.start();
    setPeak(0);
    engine.openQueue().play(CLICK, 1);
    advance(1000);
    engine.observe();
    expect(told).toEqual(['running']);
    advance(600);
    engine.observe();
    engine.observe();
    expect(told).toEqual(['running', 'failed']);
    expect(engine.state.sentence).toContain('made no sound');
    expect(engine.running).toBe(true);
  });

  it('sends queued sounds to the context of the day', async () => {
    const first = new FakeContext();
    const { engine, page, played } = rig([first, new FakeContext()]);
    await engine.start();
    const queue = engine.openQueue();
    queue.play(CLICK, 1);
    first.frozen = true;
    await engine.start();
    queue.play(CLICK, 2);
    engine.playNow(CLICK);
    expect(first.closed).toBe(true);
    expect(new Set(played.map(({ bus }) => bus)).size).toBe(3);
    expect(played.at(-1)!.atSeconds).toBeUndefined();
    engine.close();
    page.dispatchEvent(new Event('pointerdown'));
    expect(engine.state.name).toBe('off');
  });
});
