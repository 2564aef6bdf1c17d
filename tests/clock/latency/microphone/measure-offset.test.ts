import { describe, expect, it } from 'vitest';
import { measureOffset } from '../../../../src/clock/latency/microphone/measure-offset';
import type { Recording } from '../../../../src/clock/latency/microphone/recording';
import { longRunCount } from '../../../run-count';
import { microphoneRuns, ROOMS } from './microphone-runs';
import { simulatedRoom, type Room } from './simulated-room';

const SEED = 7000;
/** A thousand runs take minutes: those are benched; here every room has a few. */
const RUNS = longRunCount(9, 9);

const outcomeOf = (seed: number, room: Room) => {
  const { recording, clicks, stampsMs } = simulatedRoom(seed, room);
  return measureOffset(recording, clicks, stampsMs);
};
const whyOf = (seed: number, room: Room) => {
  const outcome = outcomeOf(seed, room);
  return outcome.outcome === 'refused' ? outcome.why : 'measured';
};

describe(`the microphone measurement, 32 strokes with 15 ms spread, seeds ${SEED} on`, () => {
  it.each(ROOMS)('%s: within 1 ms, and inside its interval', (_, room) => {
    const { measured, within1Ms, covered } = microphoneRuns(RUNS, SEED, room);
    expect(measured).toBe(RUNS);
    expect(within1Ms).toBe(RUNS);
    expect(covered).toBe(RUNS);
  });

  it('does not change with how evenly the player plays, nor with the delay of the microphone', () => {
    const usual = outcomeOf(SEED, { signalToNoiseDb: 60 });
    if (usual.outcome !== 'measured') throw new Error(usual.sentence);
    for (const room of [{ playerSpreadMs: 40 }, { inputMs: 180 }, { placeInBeat: 0.35 }]) {
      const other = outcomeOf(SEED, { ...room, signalToNoiseDb: 60 });
      if (other.outcome !== 'measured') throw new Error(other.sentence);
      expect(Math.abs(other.deviceOffsetMs - usual.deviceOffsetMs)).toBeLessThan(0.35);
    }
  });

  it('follows the output’s and the kit’s delay one to one', () => {
    for (const room of [{ outputMs: 44 }, { kitMs: 34 }]) {
      const { trueOffsetMs } = simulatedRoom(SEED, room);
      expect(trueOffsetMs).toBeGreaterThan(48);
      const found = outcomeOf(SEED, room);
      if (found.outcome !== 'measured') throw new Error(found.sentence);
      expect(Math.abs(found.deviceOffsetMs - trueOffsetMs)).toBeLessThan(1);
    }
  });
});

/** The same recording, but from each share of it on, ascending, what comes is so many ms later. */
function withJumps(
  recording: Recording,
  jumps: readonly (readonly [at: number, laterMs: number])[],
): Recording {
  const { samples, sampleRate } = recording;
  const moved = samples.slice();
  let sumMs = 0;
  for (const [at, laterMs] of jumps) {
    sumMs += laterMs;
    const from = Math.round(at * samples.length);
    const later = Math.round((sumMs * sampleRate) / 1000);
    for (let i = from; i < samples.length; i++) moved[i] = samples[i - later] ?? 0;
  }
  return { ...recording, samples: moved };
}

// A block is 10 ms where the system mixes in such steps: common practice, no source.
describe('a recording that loses or repeats a block on the way is measured inside its interval', () => {
  it.each(
    [3, -3, 10, -10, 20, -20, 100].flatMap((laterMs) =>
      [0.2, 0.5, 0.8].map((at) => [laterMs, at] as const),
    ),
  )('%i ms later from %f of it on', (laterMs, at) => {
    const { recording, clicks, stampsMs, trueOffsetMs } = simulatedRoom(SEED);
    const found = measureOffset(withJumps(recording, [[at, laterMs]]), clicks, stampsMs);
    if (found.outcome !== 'measured') throw new Error(found.sentence);
    expect(found.lowerMs).toBeLessThan(trueOffsetMs);
    expect(found.upperMs).toBeGreaterThan(trueOffsetMs);
    expect(found.strokes).toBeGreaterThanOrEqual(29);
  });

  it('and so it is in every room, after five blocks', () => {
    ROOMS.forEach(([name, room], k) => {
      const { recording, clicks, stampsMs, trueOffsetMs } = simulatedRoom(SEED + k, room);
      const jumps = [0.15, 0.3, 0.55, 0.7, 0.85].map((at) => [at, 10] as const);
      const found = measureOffset(withJumps(recording, jumps), clicks, stampsMs);
      if (found.outcome !== 'measured') throw new Error(`${name}: ${found.sentence}`);
      expect(found.lowerMs, name).toBeLessThan(trueOffsetMs);
      expect(found.upperMs, name).toBeGreaterThan(trueOffsetMs);
      expect(found.strokes, name).toBeGreaterThanOrEqual(20);
    });
  });
});

describe('a recording that cannot tell', () => {
  it.each([
    ['clicks under the noise', { signalToNoiseDb: -25 }, 'clicks not found'],
    [
      'a rate that is not the one it says',
      { sampleRate: 44_100, claimedRate: 48_000 },
      'wrong sample rate',
    ],
    ['pads too soft to hear', { padDb: -80 }, 'pads not heard'],
    [
      'strokes on the clicks themselves',
      { placeInBeat: 0.02, playerSpreadMs: 4 },
      'pads not heard',
    ],
    // A connection interval of 15 ms is the longest BLE-MIDI allows [F].
    ['wireless MIDI', { frameMs: 15 }, 'midi jitter'],
  ])('%s', (_, room, why) => {
    for (let seed = SEED; seed < SEED + 3; seed++) expect(whyOf(seed, room)).toBe(why);
  });

  it('one stroke is told as one', () => {
    const { recording, clicks, stampsMs } = simulatedRoom(SEED, { padDb: -80 });
    const samples = recording.samples.slice();
    // The first stroke lies 0.7 s from the recording's beginning, the second 1.5 s.
    samples.set(simulatedRoom(SEED).recording.samples.subarray(0, 1.2 * recording.sampleRate));
    expect(measureOffset({ ...recording, samples }, clicks, stampsMs)).toMatchObject({
      why: 'pads not heard',
      sentence: expect.stringMatching(/^Only 1 stroke can be heard in the recording;/),
    });
  });

  it('stamps of another playing', () => {
    const { recording, clicks } = simulatedRoom(SEED);
    const others = Array.from({ length: 32 }, (_, k) => 6800 + 1131 * k + 97 * ((k * k) % 11));
    const outcome = measureOffset(recording, clicks, others);
    expect(outcome.outcome === 'refused' && outcome.why).toBe('too few pairs');
  });

  it('fewer than six clicks that can be told from the rest, however many were played', () => {
    const everyBeat = simulatedRoom(SEED).clicks.atSeconds;
    const outcomes = [
      { clicks: 5, played: 5 },
      { clicks: 6, played: 6 },
      { clicks: 5, played: 8 },
      { clicks: 6, played: 9 },
    ].map(({ clicks, played }) => {
      const room = simulatedRoom(SEED, { clicks });
      const atSeconds = everyBeat.slice(0, played);
      return measureOffset(room.recording, { ...room.clicks, atSeconds }, room.stampsMs);
    });
    const refusal = {
      outcome: 'refused',
      why: 'clicks not found',
      sentence:
        'Only 5 clicks can be told from the rest of the recording; turn the loudspeaker up.',
    };
    const measured = { outcome: 'measured', clicks: 6, strokes: 32 };
    expect(outcomes).toMatchObject([refusal, measured, refusal, measured]);
  });

  it('nothing at all', () => {
    const { recording, clicks } = simulatedRoom(SEED);
    const silence = { ...recording, samples: new Float32Array(recording.samples.length) };
    const short = { ...recording, samples: new Float32Array(100) };
    expect(measureOffset(silence, clicks, []).outcome).toBe('refused');
    expect(measureOffset(short, clicks, []).outcome).toBe('refused');
  });

  it('clicks too near each other are our own mistake', () => {
    const { recording, clicks } = simulatedRoom(SEED);
    expect(() => measureOffset(recording, { ...clicks, atSeconds: [1, 1.5] }, [])).toThrow(
      RangeError,
    );
  });
});
