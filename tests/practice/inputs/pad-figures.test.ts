import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM } from '../../../src/kit/built-in-kits';
import { MessageTrace } from '../../../src/practice/inputs/message-trace';
import { deliveryOf, padFigures } from '../../../src/practice/inputs/pad-figures';
import { percentiles } from '../../../src/practice/inputs/percentiles';
import { tracedMessages } from '../../../src/practice/inputs/traced-messages';
import { playHarbourKit } from '../../view/played-trace';

describe('figures of the last messages', () => {
  const trace = new MessageTrace();
  playHarbourKit(trace);

  it('count velocities in steps of eight', () => {
    const [snare] = padFigures(trace, EDGE_AND_RIM);
    // 20, 30 (twice), 40, 50, 60, 70, 80, 90, 100, 110 in bins of 8 from 0.
    expect(snare!.velocities).toEqual([0, 0, 1, 2, 0, 1, 1, 1, 1, 0, 1, 1, 1, 1, 0, 0]);
    expect(snare!.delayMs).toMatchObject({ count: 11, p50: 2, max: 60 });
  });

  it('take all messages for the delivery, strokes or not', () => {
    expect(deliveryOf(trace).count).toBe(13);
    expect(deliveryOf(new MessageTrace())).toEqual({
      count: 0,
      p50: undefined,
      p99: undefined,
      max: undefined,
    });
  });

  it('tell the last few messages only, with the time to the one before', () => {
    const last = tracedMessages(trace, 2);
    expect(last.map(({ number, sinceMs }) => [number, sinceMs])).toEqual([
      [11, 492],
      [12, 100],
    ]);
  });
});

describe('percentiles', () => {
  it('are the nearest-rank ones of a worked example', () => {
    // Ordered list 15, 20, 35, 40, 50: the 50th percentile has rank ceil(0.5 * 5) = 3 (common worked example of the method).
    expect(percentiles(Float64Array.of(35, 15, 50, 20, 40))).toEqual({
      count: 5,
      p50: 35,
      p99: 50,
      max: 50,
    });
  });
});
