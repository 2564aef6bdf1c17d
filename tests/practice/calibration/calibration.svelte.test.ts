import { describe, expect, it, vi } from 'vitest';
import { CLICKS } from '../../../src/practice/calibration/latency-run';
import type { MicrophoneEvidence } from '../../../src/practice/calibration/microphone-analysis';
import { MicrophoneCalibration } from '../../../src/practice/calibration/microphone-calibration.svelte';
import { PlayedCalibration } from '../../../src/practice/calibration/played-calibration.svelte';
import type { AudioEngine } from '../../../src/sound/audio-engine';
import { AUDIO_STATES } from '../../../src/sound/audio-state';
import {
  MICROPHONE_PROBLEMS,
  microphoneProblem,
} from '../../../src/sound/microphone/microphone-problems';
import type { recordMicrophone } from '../../../src/sound/microphone/record-microphone';
import { chance } from '../../../src/time/chance';
import { bad, good } from '../../../src/time/result';
import { handPage } from '../hand-page';

const SEED = 11;
const BEAT_MS = 600;
const INTERVAL_MS = 750;

/** Two clocks that agree but for 250 ms, a pump turned by hand, and a pad. */
function rig(state: AudioEngine['state'] = AUDIO_STATES.running) {
  const { page, output, dependencies, send, isTapped, passTo } = handPage({
    nowMs: 5000,
    audioAheadMs: 250,
  });
  page.sound = state;
  const remember = vi.fn();
  return {
    page,
    output,
    dependencies: { ...dependencies, rigs: { ...dependencies.rigs, remember } },
    remember,
    strike: (atMs: number, note = 38) => send(atMs, 0x99, note, 80),
    isListening: isTapped,
    passTo,
  };
}

describe(`a guided minute, seed ${SEED}`, () => {
  it('clicks evenly, and finds a constant delay within its interval', async () => {
    const { dependencies, page, output, strike, passTo, isListening, remember } = rig();
    const played = new PlayedCalibration(dependencies);
    await played.begin();
    expect(page.player).toBe('kit');
    passTo(7000);
    const firstMs = output.sounds[0]!.atSeconds * 1000 - 250;
    const { normal } = chance(SEED);
    for (let k = 0; k < CLICKS; k++) {
      passTo(firstMs + k * BEAT_MS);
      const atMs = firstMs + k * BEAT_MS + 31 + 15 * normal();
      strike(atMs);
      // The pad bounces, and another one shakes along.
      strike(atMs + 40);
      strike(atMs + 1, 40);
    }
    passTo(Infinity);
    const at = output.sounds.map(({ atSeconds }) => atSeconds);
    expect(at).toHaveLength(CLICKS);
    at.forEach((seconds, k) => expect(seconds).toBeCloseTo(at[0]! + k * 0.6, 6));
    expect(played.phase).toBe('done');
    expect(played.pad).toBe(38);
    expect(isListening()).toBe(false);
    const { estimate } = played;
    if (estimate?.outcome !== 'estimated') throw new Error(estimate?.outcome);
    expect(remember.mock.calls).toEqual([[estimate]]);
    expect(estimate.lowerMs).toBeLessThanOrEqual(31);
    expect(estimate.upperMs).toBeGreaterThanOrEqual(31);
    expect(estimate.strokes + estimate.wild).toBe(CLICKS - 4);
  });

  it('left off, keeps nothing and falls silent', async () => {
    const { dependencies, output, strike, passTo, isListening, remember } = rig();
    const played = new PlayedCalibration(dependencies);
    await played.begin();
    passTo(9000);
    strike(9010);
    played.stop();
    expect(remember).not.toHaveBeenCalled();
    expect([played.phase, played.estimate, isListening()]).toEqual(['idle', undefined, false]);
    expect(output.closed).toBe(true);
  });

  it('does not begin without sound, and says why', async () => {
    const { dependencies, isListening } = rig(AUDIO_STATES.suspended);
    const played = new PlayedCalibration(dependencies);
    await played.begin();
    expect([played.phase, played.problem]).toEqual(['idle', AUDIO_STATES.suspended.sentence]);
    expect(isListening()).toBe(false);
  });
});

describe('the microphone’s half minute', () => {
  const recorded = { samples: new Float32Array(8), sampleRate: 48_000, startSeconds: 5.3 };

  it('hands clicks, stamps, clocks and sound over to be compared', async () => {
    const { dependencies, output, strike, passTo, isListening } = rig();
    let given: MicrophoneEvidence | undefined;
    let released = 0;
    const microphone = new MicrophoneCalibration({
      ...dependencies,
      record: async () => good({ isProcessed: true, stop: () => (released++, recorded) }),
      analyse: async (evidence) => {
        given = evidence;
        return { outcome: 'refused', why: 'too quiet', sentence: 'Too quiet.' };
      },
    });
    await microphone.begin();
    expect(microphone.phase).toBe('recording');
    expect(microphone.isProcessed).toBe(true);
    const at = output.sounds.map(({ atSeconds }) => atSeconds * 1000 - 250);
    expect(at[1]! - at[0]!).toBeCloseTo(INTERVAL_MS, 6);
    for (const ms of at) {
      passTo(ms + 300);
      strike(ms + 300);
    }
    passTo(Infinity);
    await expect.poll(() => microphone.phase).toBe('done');
    expect(given!.recorded).toBe(recorded);
    expect(given!.stampsMs).toEqual(at.map((ms) => ms + 300));
    for (const [seconds, ms] of given!.clocks) expect(ms).toBeCloseTo(seconds * 1000 - 250, 6);
    expect(microphone.outcome).toMatchObject({ sentence: 'Too quiet.' });
    expect([released, isListening()]).toEqual([1, false]);
  });

  it.each(Object.keys(MICROPHONE_PROBLEMS) as (keyof typeof MICROPHONE_PROBLEMS)[])(
    'says what to do: %s',
    async (problem) => {
      const { dependencies, output } = rig();
      const record: typeof recordMicrophone = async () => bad(microphoneProblem(problem));
      const microphone = new MicrophoneCalibration({ ...dependencies, record });
      await microphone.begin();
      expect([microphone.phase, microphone.problem]).toEqual([
        'idle',
        MICROPHONE_PROBLEMS[problem],
      ]);
      expect(output.sounds).toEqual([]);
    },
  );

  it('lets go of a microphone that was allowed after the player had left off', async () => {
    const { dependencies } = rig();
    let allow: (() => void) | undefined;
    const stop = vi.fn(() => recorded);
    const microphone = new MicrophoneCalibration({
      ...dependencies,
      record: () =>
        new Promise((resolve) => (allow = () => resolve(good({ isProcessed: false, stop })))),
    });
    const begun = microphone.begin();
    await expect.poll(() => allow).toBeDefined();
    microphone.stop();
    allow!();
    await begun;
    expect(stop).toHaveBeenCalledOnce();
    expect(microphone.phase).toBe('idle');
  });
});
