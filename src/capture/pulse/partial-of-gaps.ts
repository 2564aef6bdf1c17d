import { median, min } from 'simple-statistics';

/** Partials between successive events, and how long one is. */
export interface PartialFit {
  readonly partialUs: number;
  /** Whole partials of each gap, in order. */
  readonly counts: readonly number[];
  /** How far each gap is from its whole partials, in partials as the single ones were played. */
  readonly off: readonly number[];
}

/** Partials played once are not quicker and not slower. Chosen: sixteenths at 125 a minute, and one every two seconds. */
export const PARTIAL_US = { least: 120_000, most: 2_000_000 };
/** A gap is at most so many partials. Chosen. */
const MOST_PARTIALS = 8;
/** How far a gap scatters, µs: two strokes with a spread of 12 ms each; and what one partial more of rest costs, in nats. Chosen. */
const SCATTER_US = 17_000;
const REST = 2;
const ROUNDS = 3;

/**
 * The partial that explains the gaps between events best: each gap a whole number of partials, few of them
 * rests. Undefined without gaps.
 *
 * @example partialOfGaps([200000, 410000, 195000]).counts // => [1, 2, 1]
 */
export function partialOfGaps(gapsUs: readonly number[]): PartialFit | undefined {
  if (gapsUs.length === 0) return undefined;
  let best: { partialUs: number; cost: number } | undefined;
  const shortest = min(gapsUs);
  for (const gapUs of gapsUs)
    for (let parts = 1; parts <= MOST_PARTIALS; parts++) {
      const first = gapUs / parts;
      if (first > 1.3 * shortest || first < PARTIAL_US.least * 0.9) continue;
      const partialUs = fitted(first, gapsUs);
      const cost = costOf(partialUs, gapsUs);
      if (!best || cost < best.cost) best = { partialUs, cost };
    }
  if (!best) return undefined;
  const { partialUs } = best;
  const counts = gapsUs.map((gap) => countOf(gap, partialUs));
  const singles = gapsUs.filter((_, i) => counts[i] === 1);
  const typicalUs = singles.length > 0 ? median(singles) : partialUs;
  return { partialUs, counts, off: gapsUs.map((gap, i) => gap / typicalUs - counts[i]!) };
}

const countOf = (gapUs: number, partialUs: number): number =>
  Math.max(1, Math.round(gapUs / partialUs));

/** Least squares through the origin, the counts taken anew each time. */
function fitted(firstUs: number, gapsUs: readonly number[]): number {
  let partialUs = firstUs;
  for (let round = 0; round < ROUNDS; round++) {
    let products = 0;
    let squares = 0;
    for (const gap of gapsUs) {
      const count = countOf(gap, partialUs);
      products += gap * count;
      squares += count * count;
    }
    partialUs = products / squares;
  }
  return partialUs;
}

function costOf(partialUs: number, gapsUs: readonly number[]): number {
  return gapsUs.reduce((sum, gap) => {
    const count = countOf(gap, partialUs);
    const off = (gap - count * partialUs) / SCATTER_US;
    return sum + (off * off) / 2 + REST * (count - 1);
  }, 0);
}
