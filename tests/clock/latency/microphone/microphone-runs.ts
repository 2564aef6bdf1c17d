import { measureOffset } from '../../../../src/clock/latency/microphone/measure-offset';
import { simulatedRoom, type Room } from './simulated-room';

/** What many seeded runs of the microphone measurement came to. */
export interface MicrophoneRuns {
  readonly runs: number;
  readonly measured: number;
  /** Measurements within 1 ms of the truth, and those whose interval holds it. */
  readonly within1Ms: number;
  readonly covered: number;
  /** Distance from the truth of each measurement, ms. */
  readonly errorsMs: readonly number[];
}

/** The rooms that a run is drawn from in turn: quiet and noisy, dry and ringing, humming, cut off. */
export const ROOMS: readonly (readonly [name: string, room: Room])[] = [
  ['a quiet dry room', {}],
  ['20 dB over noise', { signalToNoiseDb: 20 }],
  ['10 dB over noise, strong strokes', { signalToNoiseDb: 10, padDb: 6 }],
  ['echo', { echoDb: -8 }],
  [
    'a loud echo that rings long, 25 dB over noise',
    { echoDb: -5, ringSeconds: 0.7, signalToNoiseDb: 25 },
  ],
  ['hum', { humDb: -10, signalToNoiseDb: 25 }],
  ['cut off at a fifth of the click', { clipAt: 0.2 }],
  ['44.1 kHz, poled the other way', { sampleRate: 44_100, flipped: true, echoDb: -10 }],
  ['clocks that drift by 150 ppm', { driftPpm: 150, signalToNoiseDb: 25 }],
  ['a late output that reports less', { outputMs: 180, reportedMs: 20, echoDb: -10 }],
];

/** Runs of one room, or of all in turn, with seeds from `seed` on. */
export function microphoneRuns(runs: number, seed: number, room?: Room): MicrophoneRuns {
  const errorsMs: number[] = [];
  let covered = 0;
  for (let run = 0; run < runs; run++) {
    const one = simulatedRoom(seed + run, room ?? ROOMS[run % ROOMS.length]![1]);
    const found = measureOffset(one.recording, one.clicks, one.stampsMs);
    if (found.outcome !== 'measured') continue;
    errorsMs.push(Math.abs(found.deviceOffsetMs - one.trueOffsetMs));
    if (found.lowerMs <= one.trueOffsetMs && one.trueOffsetMs <= found.upperMs) covered++;
  }
  const within1Ms = errorsMs.filter((error) => error <= 1).length;
  return { runs, measured: errorsMs.length, within1Ms, covered, errorsMs };
}
