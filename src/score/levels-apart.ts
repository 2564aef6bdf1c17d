import { learnLevels, misplacedCount, type LevelStrokes } from '../kit/learn/learn-levels';
import type { LevelBoundaries } from '../kit/kit';
import { separation } from './separation';

/** How well two neighbouring levels are told apart on a pad. */
export interface Apart {
  /** Share of the strokes of both that the boundary puts on the wrong side. */
  readonly overlap: number;
  /** Probability that one of the louder is louder than one of the softer, ties one half. */
  readonly separation: number;
}

export interface PadLevels {
  /** Undefined where no cuts part the levels. */
  readonly boundaries: LevelBoundaries | undefined;
  readonly ghostsFromTaps: Apart;
  readonly tapsFromAccents: Apart;
  /** One sentence each; none when the pad tells the levels apart. */
  readonly warnings: readonly string[];
}

/** Chosen, not measured: one stroke in eight on the wrong side is let pass. */
export const MOST_OVERLAP = 0.125;
/** Chosen, not measured. */
export const LEAST_SEPARATION = 0.95;

/**
 * Whether a pad, as the player plays it, tells ghosts, taps and accents apart. Undefined when one of
 * them was not played.
 *
 * @param name the pad's name, for the sentences.
 * @example levelsApart('snare', { ghosts: [20, 30], taps: [60, 70], accents: [100, 110] })?.warnings // => []
 */
export function levelsApart(name: string, strokes: LevelStrokes): PadLevels | undefined {
  const { ghosts, taps, accents } = strokes;
  const boundaries = learnLevels(strokes);
  const ghostsFromTaps = apart(ghosts, taps, boundaries?.ghostMax);
  const tapsFromAccents = apart(taps, accents, boundaries && boundaries.accentMin - 1);
  if (!ghostsFromTaps || !tapsFromAccents) return undefined;
  const warnings: string[] = [];
  if (!boundaries)
    warnings.push(
      `On “${name}” the three levels cannot be parted, so the boundaries stay as they were; play the ghosts softer and the accents louder, or widen the pad's velocity curve on the sound module.`,
    );
  if (isMixed(ghostsFromTaps)) warnings.push(warning(name, 'ghosts and taps', ghostsFromTaps));
  if (isMixed(tapsFromAccents)) warnings.push(warning(name, 'taps and accents', tapsFromAccents));
  return { boundaries, ghostsFromTaps, tapsFromAccents, warnings };
}

function apart(
  softer: readonly number[],
  louder: readonly number[],
  cut: number | undefined,
): Apart | undefined {
  const found = separation(louder, softer);
  if (found === undefined) return undefined;
  const all = softer.length + louder.length;
  return {
    overlap: cut === undefined ? 1 : misplacedCount(softer, louder, cut) / all,
    separation: found,
  };
}

const isMixed = ({ overlap, separation }: Apart): boolean =>
  overlap > MOST_OVERLAP || separation < LEAST_SEPARATION;

const warning = (name: string, which: string, { overlap, separation }: Apart): string =>
  `“${name}” does not tell your ${which} apart: ${overlap < 1 ? `${Math.round(overlap * 100)} % of the strokes fall on the wrong side of the best boundary` : 'no boundary parts them'} (separation ${separation.toFixed(2)}); verdicts about level on it will often be wrong. Play them farther apart, or make the pad's velocity curve more linear and its sensitivity lower on the sound module.`;
