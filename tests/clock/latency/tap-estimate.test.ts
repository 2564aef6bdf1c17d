import { describe, expect, it } from 'vitest';
import { offsetHistogram } from '../../../src/clock/latency/offset-histogram';
import { driftMs, tapEstimate, type TapEstimate } from '../../../src/clock/latency/tap-estimate';
import { twoClusters } from '../../../src/clock/latency/two-clusters';
import { chance } from '../../../src/time/chance';

const SEED = 48_000;
const BEAT_MS = 600;
const RUNS = 1000;
/** Four standard errors of a share of 0.95 in a thousand runs. */
const FOUR_ERRORS = 4 * Math.sqrt((0.95 * 0.05) / RUNS);

const { normal, share } = chance(SEED);
const strokes = (count: number, meanMs: number, spreadMs: number) =>
  Array.from({ length: count }, () => meanMs + spreadMs * normal());
const wrapped = (offsetMs: number) => offsetMs - Math.round(offsetMs / BEAT_MS) * BEAT_MS;

/** A player who starts late, then plays with the spread given; some strokes are wild. */
const player = (trueMs: number, spreadMs: number, wildShare: number) => [
  ...[90, 60, 40, 20],
  ...strokes(28, trueMs, spreadMs).map((offset) =>
    wrapped(share() < wildShare ? offset + 300 * (share() - 0.5) : offset),
  ),
];
const why = (estimate: TapEstimate) => (estimate.outcome === 'estimated' ? '' : estimate.why);

describe(`32 strokes played to a click, ${RUNS} players each, seed ${SEED}`, () => {
  it.each([
    ['with a spread of 8 ms', 8, 0],
    ['with a spread of 15 ms', 15, 0],
    ['with a spread of 15 ms and a stroke in ten wild', 15, 0.1],
  ])('%s: the interval covers the truth as often as it says', (_, spreadMs, wildShare) => {
    let covered = 0;
    let estimated = 0;
    let within1 = 0;
    let widthMs = 0;
    for (let run = 0; run < RUNS; run++) {
      const trueMs = 200 * share() - 100;
      const found = tapEstimate(player(trueMs, spreadMs, wildShare), BEAT_MS);
      if (found.outcome !== 'estimated') continue;
      estimated++;
      widthMs += (found.upperMs - found.lowerMs) / 2;
      if (Math.abs(found.deviceAndHabitMs - trueMs) <= 1) within1++;
      if (found.lowerMs <= trueMs && trueMs <= found.upperMs) covered++;
    }
    expect(estimated).toBeGreaterThan(0.97 * RUNS);
    expect(covered / estimated).toBeGreaterThan(0.95 - FOUR_ERRORS);
    expect(covered / estimated).toBeLessThan(0.95 + FOUR_ERRORS);
    // 1.96·s/√28 by hand: 3.0 and 5.6 ms. Not the millisecond, and it is not pretended.
    const byHand = (1.96 * spreadMs) / Math.sqrt(28);
    expect(widthMs / estimated / byHand).toBeGreaterThan(0.9);
    expect(widthMs / estimated / byHand).toBeLessThan(1.25);
    if (spreadMs === 15) expect(within1 / estimated).toBeLessThan(0.5);
  });

  it('a steady player is hardly ever refused', () => {
    let refused = 0;
    for (let run = 0; run < RUNS; run++)
      if (tapEstimate(player(30, 15, 0), BEAT_MS).outcome === 'refused') refused++;
    expect(refused).toBeLessThan(0.01 * RUNS);
  });

  it('two groups 100 ms apart are refused, whatever their share from a quarter up', () => {
    for (let run = 0; run < RUNS; run++) {
      const found = tapEstimate(
        [...strokes(4, 0, 10), ...strokes(21, 0, 10), ...strokes(7, 100, 10)].map(wrapped),
        BEAT_MS,
      );
      expect(why(found)).toBe('two clusters');
    }
  });

  it('a player who slows down by 100 ms is refused, nearly always', () => {
    let drifting = 0;
    for (let run = 0; run < RUNS; run++) {
      const found = tapEstimate(
        strokes(32, -40, 12).map((offset, i) => wrapped(offset + (100 / 31) * i)),
        BEAT_MS,
      );
      if (why(found) === 'drift') drifting++;
    }
    expect(drifting).toBeGreaterThan(0.99 * RUNS);
  });
});

describe('a run of strokes', () => {
  it('leaves the first four out', () => {
    const found = tapEstimate([250, 250, 250, 250, ...strokes(28, 20, 6)], BEAT_MS);
    if (found.outcome !== 'estimated') throw new Error(found.sentence);
    expect(found.warmUp).toBe(4);
    expect(Math.abs(found.deviceAndHabitMs - 20)).toBeLessThan(5);
  });

  it('is asked for again when the spread is too large, in words with the figure', () => {
    const found = tapEstimate(strokes(40, 0, 60), BEAT_MS);
    expect(found.outcome).toBe('repeat');
    expect(found.outcome === 'repeat' && found.sentence).toMatch(/scatter by \d+ ms/);
  });

  it('is asked for again when strokes fall anywhere in the beat', () => {
    const anywhere = Array.from({ length: 40 }, () => BEAT_MS * (share() - 0.5));
    expect(tapEstimate(anywhere, BEAT_MS).outcome).toBe('repeat');
  });

  it('is refused with too few strokes, half a beat off, and far off', () => {
    expect(why(tapEstimate(strokes(23, 0, 10), BEAT_MS))).toBe('too few');
    expect(why(tapEstimate(strokes(32, 295, 10).map(wrapped), BEAT_MS))).toBe('ambiguous');
    expect(why(tapEstimate(strokes(32, 265, 8), BEAT_MS))).toBe('too far');
  });

  it('near half a beat is one group and not two, though it wraps', () => {
    expect(why(tapEstimate(strokes(32, 300, 12).map(wrapped), BEAT_MS))).toBe('ambiguous');
  });

  it('has a histogram that holds every stroke after the warm-up, whatever the outcome', () => {
    for (const meanMs of [0, 265, 295]) {
      const { histogram } = tapEstimate(strokes(32, meanMs, 10), BEAT_MS);
      expect(histogram.reduce((sum, { count }) => sum + count, 0)).toBe(28);
    }
  });

  it('bears a clock in whole milliseconds and strokes that all agree', () => {
    const found = tapEstimate(
      Array.from({ length: 32 }, () => 17),
      BEAT_MS,
    );
    expect(found.outcome === 'estimated' && found.deviceAndHabitMs).toBe(17);
  });
});

describe('parts of the estimate', () => {
  it('bins have multiples of their width for edges, the lower one closed', () => {
    expect(offsetHistogram([-5, -0.1, 0, 4.9, 12], 5)).toEqual([
      { fromMs: -5, toMs: 0, count: 2 },
      { fromMs: 0, toMs: 5, count: 2 },
      { fromMs: 5, toMs: 10, count: 0 },
      { fromMs: 10, toMs: 15, count: 1 },
    ]);
  });

  // Two normal clusters of deviation 1 whose means lie D apart have distinctness D (Ashman et al. 1994) [M].
  it('clusters are as distinct as their distance over their spread', () => {
    const found = twoClusters([...strokes(500, 0, 10), ...strokes(500, 80, 10)])!;
    expect(Math.abs(found.distinctness - 8)).toBeLessThan(0.6);
    expect(Math.abs(found.lowerMs)).toBeLessThan(2);
    expect(Math.abs(found.upperMs - 80)).toBeLessThan(2);
  });

  it('a step is a drift, a lone wild stroke is none', () => {
    expect(driftMs([0, 1, 0, 2, 1, 0, 1, 40, 41, 40, 42, 40, 41, 40, 42, 41])).toBeGreaterThan(20);
    expect(driftMs([0, 1, 0, 2, 1, 0, 1, 0, 2, 1, 0, 2, 1, 0, 1, 400])).toBeUndefined();
  });
});
