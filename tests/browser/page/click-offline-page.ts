import type { ClockMap } from '../../../src/clock/audio-clock-map';
import { createAudioGraph } from '../../../src/sound/audio-graph';
import { createSoundSchedule } from '../../../src/sound/sound-schedule';
import { clickSamples } from '../../../src/sound/synth/clicks';
import { resolutionOf } from '../../../src/clock/clock-resolution';

export interface OfflineClicks {
  readonly sampleRate: number;
  readonly lengthSeconds: number;
  /** Integer microseconds from bar 1 beat 1, ascending. */
  readonly timesUs: readonly number[];
  /** Audio ms = offsetMs + performance ms · (1 + ppm · 1e-6). */
  readonly offsetMs: number;
  readonly ppm: number;
  readonly originPerformanceMs: number;
}

/** Quieter than any click's first sample that counts, louder than nothing. */
const SILENCE = 1e-6;
/** Clicks last 60 ms; after so long a silence the next sound is another click. */
const QUIET_SECONDS = 0.02;
/** The schedule is filled at this rhythm of audio time, as the pump would. */
const FILL_SECONDS = 1;

const firstSound = (samples: Float32Array) => samples.findIndex((s) => Math.abs(s) > SILENCE);

/** Renders clicks through the schedule and the graph of the app; the samples at which their buffers begin. */
export async function renderClicks(input: OfflineClicks): Promise<number[]> {
  const { sampleRate, lengthSeconds, offsetMs, ppm } = input;
  const native = new OfflineAudioContext(1, sampleRate * lengthSeconds, sampleRate);
  const graph = createAudioGraph(native as unknown as AudioContext, 1);
  const rate = 1 + ppm * 1e-6;
  const clockMap: ClockMap = {
    observe: () => undefined,
    audioSecondsAt: (ms) => (offsetMs + ms * rate) / 1000,
    performanceMsAt: (seconds) => (seconds * 1000 - offsetMs) / rate,
    quality: {
      name: 'verified',
      pairs: 20,
      spreadMs: 0,
      refused: 0,
      uncertaintyMs: 0,
      ratePpm: ppm,
      resolution: resolutionOf(0.1),
    },
    residuals: () => [],
  };
  const schedule = createSoundSchedule({
    clockMap,
    engine: {
      running: true,
      get currentSeconds() {
        return native.currentTime;
      },
      openQueue: () => graph.openBus(),
    },
    originPerformanceMs: input.originPerformanceMs,
    fromUs: 0,
    events: (fromUs, toUs) =>
      input.timesUs
        .filter((timeUs) => timeUs >= fromUs && timeUs < toUs)
        .map((timeUs) => ({ kind: 'click', timeUs, sound: 'beat', velocity: 127 })),
  });
  schedule.fill();
  for (let seconds = FILL_SECONDS; seconds < lengthSeconds; seconds += FILL_SECONDS)
    void native.suspend(seconds).then(() => {
      schedule.fill();
      return native.resume();
    });
  const samples = (await native.startRendering()).getChannelData(0);

  const lead = firstSound(clickSamples('beat', sampleRate));
  const onsets: number[] = [];
  let quiet = QUIET_SECONDS * sampleRate;
  for (let n = 0; n < samples.length; n++) {
    if (Math.abs(samples[n]!) <= SILENCE) quiet++;
    else {
      if (quiet >= QUIET_SECONDS * sampleRate) onsets.push(n - lead);
      quiet = 0;
    }
  }
  return onsets;
}
