import { describe, expect, it } from 'vitest';
import { performanceMsIn } from '../../../src/practice/calibration/microphone-analysis';
import { analyseRecording } from '../../../src/practice/calibration/microphone-analysis';
import { simulatedRoom } from '../../clock/latency/microphone/simulated-room';

const SEED = 7100;

describe('a clock table', () => {
  it('is the straight lines through its entries, and goes on outside', () => {
    const table = [
      [1, 1000],
      [2, 2000],
      [3, 3010],
    ] as const;
    expect(performanceMsIn(table, 1.25)).toBeCloseTo(1250, 9);
    expect(performanceMsIn(table, 2.5)).toBeCloseTo(2505, 9);
    expect(performanceMsIn(table, 0)).toBeCloseTo(0, 9);
    expect(performanceMsIn(table, 4)).toBeCloseTo(4020, 9);
  });
});

describe(`a recording as the page has it, seed ${SEED}`, () => {
  /** A simulated room with clocks that drift, known by a table of one entry a tenth of a second. */
  const evidence = (loudness: number) => {
    const { recording, clicks, stampsMs, trueOffsetMs } = simulatedRoom(SEED, { driftPpm: 150 });
    const { samples, sampleRate, startSeconds, performanceMsAt } = recording;
    const clocks = Array.from({ length: 280 }, (_, i) => {
      const seconds = startSeconds + i / 10;
      return [seconds, performanceMsAt(seconds)] as const;
    });
    const recorded = { samples: samples.map((x) => loudness * x), sampleRate, startSeconds };
    return {
      given: { recorded, clocks, sound: 'bar', atSeconds: clicks.atSeconds, stampsMs } as const,
      trueOffsetMs,
    };
  };

  it('gives the offset of the simulated rig', () => {
    const { given, trueOffsetMs } = evidence(0.3);
    const outcome = analyseRecording(given);
    if (outcome.outcome !== 'measured') throw new Error(outcome.sentence);
    expect(Math.abs(outcome.deviceOffsetMs - trueOffsetMs)).toBeLessThan(1);
  });

  it('is refused with a sentence when the microphone hears almost nothing', () => {
    const outcome = analyseRecording(evidence(0.0005).given);
    expect(outcome).toMatchObject({ outcome: 'refused', why: 'too quiet' });
  });
});
