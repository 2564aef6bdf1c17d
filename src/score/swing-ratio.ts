import { mean } from 'simple-statistics';
import { spread } from './statistics/spread';
import { tQuantile } from './statistics/student-t';
import type { Interval } from './statistics/wilson';

/**
 * The swing that was played: long part over short part of a beat, from where the off-beat strokes
 * fell between the strokes on the beat. The share of the beat before the off-beat is the written
 * share plus (mean off-beat offset − mean on-beat offset) / beat, so playing everything early or late
 * changes nothing; the ratio is share / (1 − share). 2:1 is a share of two thirds.
 *
 * Ratios fall with tempo and differ between players and within a phrase on purpose (Friberg &
 * Sundström 2002, Music Perception 19:333-349; Honing & de Haas 2008, ibid. 25:471-476; Butterfield
 * 2011, Music Theory Spectrum 33:3-26): a measured ratio is told, not corrected.
 */
export interface SwingEstimate {
  /** Long part to short part: 1 is straight. */
  readonly ratio: number;
  /** 95 %, of the mean ratio: Welch's interval of the two means, carried through share / (1 − share). */
  readonly interval: Interval;
}

export interface OffbeatOffsets {
  /** Length of a beat, ms. */
  readonly beatMs: number;
  /** Where the off-beat is written, as a share of the beat: 1/2 straight, 2/3 at 2:1. */
  readonly writtenShare: number;
  /** Stroke minus note, ms, early negative. */
  readonly onbeatMs: readonly number[];
  readonly offbeatMs: readonly number[];
}

/** Fewer strokes of either kind say too little. Chosen, not measured. */
export const FEWEST_FOR_SWING = 4;

/**
 * Undefined for too few strokes of either kind, and when the interval reaches a place outside the beat.
 *
 * @example swingRatio({ beatMs: 500, writtenShare: 1 / 2, onbeatMs: [0, 0, 0, 0], offbeatMs: [50, 50, 50, 50] })?.ratio.toFixed(6) // => '1.500000'
 */
export function swingRatio(played: OffbeatOffsets): SwingEstimate | undefined {
  const { beatMs, writtenShare, onbeatMs, offbeatMs } = played;
  if (Math.min(onbeatMs.length, offbeatMs.length) < FEWEST_FOR_SWING) return undefined;
  const share = writtenShare + (mean([...offbeatMs]) - mean([...onbeatMs])) / beatMs;
  const half = welchHalfWidth(onbeatMs, offbeatMs) / beatMs;
  if (share - half <= 0 || share + half >= 1) return undefined;
  const interval = { lower: ratioOf(share - half), upper: ratioOf(share + half) };
  return { ratio: ratioOf(share), interval };
}

const ratioOf = (share: number): number => share / (1 - share);

/** Welch 1947, Biometrika 34:28-35. */
function welchHalfWidth(a: readonly number[], b: readonly number[]): number {
  const ofA = spread(a)! ** 2 / a.length;
  const ofB = spread(b)! ** 2 / b.length;
  if (ofA + ofB === 0) return 0;
  const degrees = (ofA + ofB) ** 2 / (ofA ** 2 / (a.length - 1) + ofB ** 2 / (b.length - 1));
  return tQuantile(0.975, degrees) * Math.sqrt(ofA + ofB);
}
