import { Capturing } from '../../src/practice/capture/capturing.svelte';
import type { AudioEngine } from '../../src/sound/audio-engine';
import { AUDIO_STATES, type AudioState } from '../../src/sound/audio-state';
import { exactMap, FakeOutput } from '../sound/fake-output';
import type { StubCalibration } from './stub-calibration.svelte';
import type { StubInputs } from './stub-inputs.svelte';
import { StubCaptureStore } from './stub-capture-store';
import type { SettingsStore } from '../../src/store/settings-store';
import type { StubSession } from './stub-session.svelte';

const FORGETFUL: Pick<SettingsStore, 'read' | 'write'> = {
  read: (_name, _schema, fallback) => fallback,
  write: () => undefined,
};

/** The real capture on a clock, a pump and an output turned by hand. */
export class StubCapturing extends Capturing {
  readonly output: FakeOutput;
  readonly hand: Hand;
  readonly stored: StubCaptureStore;

  constructor(
    session: StubSession,
    inputs: StubInputs,
    calibration: StubCalibration,
    stored: StubCaptureStore = new StubCaptureStore(),
  ) {
    const hand: Hand = {
      nowMs: 10_000,
      tick: undefined,
      sound: AUDIO_STATES.running,
      isScreenOn: false,
    };
    const output = new FakeOutput();
    const engine = Object.assign(output, {
      start: async () => hand.sound,
      observe: () => undefined,
      prepare: () => undefined,
    }) as unknown as AudioEngine;
    super({
      engine,
      clockMap: exactMap(0),
      settings: FORGETFUL,
      plays: stored,
      inputs,
      rigs: calibration.rigs,
      practised: () => {
        const { phrase, choices } = session;
        return phrase && { phrase, layer: choices.layer, tempoBpm: choices.tempoBpm };
      },
      stopOthers: () => session.stop(),
      nowMs: () => hand.nowMs,
      pump: (onTick) => {
        hand.tick = onTick;
        return () => (hand.tick = undefined);
      },
      screenOn: () => {
        hand.isScreenOn = true;
        return { release: () => (hand.isScreenOn = false) };
      },
      dateTime: () => new Date(new Date().setHours(18, 20)).toISOString(),
    });
    this.output = output;
    this.hand = hand;
    this.stored = stored;
  }

  /** Lets so much time pass, the pump turning. */
  pass(ms: number): void {
    const untilMs = this.hand.nowMs + ms;
    while (this.hand.nowMs < untilMs) {
      this.hand.nowMs = Math.min(untilMs, this.hand.nowMs + 50);
      this.output.currentSeconds = this.hand.nowMs / 1000;
      this.hand.tick?.();
    }
  }
}

interface Hand {
  nowMs: number;
  tick: (() => void) | undefined;
  sound: AudioState;
  isScreenOn: boolean;
}
