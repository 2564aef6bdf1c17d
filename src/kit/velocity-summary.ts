import { quantileSorted } from 'simple-statistics';

/** The velocities one pad sent, for drawing its curve and seeing where it ends. */
export interface VelocitySummary {
  /** Ascending. */
  readonly sorted: readonly number[];
  readonly lowest: number;
  readonly highest: number;
  /** Velocities under which 5, 25, 50, 75 and 95 % of the strokes lie. */
  readonly quantiles: readonly [number, number, number, number, number];
  /** Share of the strokes at 127, where louder strokes can no longer be told apart. */
  readonly saturated: number;
  /** Share of the strokes at the lowest velocity, where the pad has stopped telling soft ones apart. */
  readonly atFloor: number;
  /** What is wrong with it and which setting of the sound module usually cures it, one sentence each. */
  readonly remarks: readonly string[];
}

const TOP = 127;
/** Chosen, not measured. */
const SATURATED_FROM = 0.1;
const AT_FLOOR_FROM = 0.15;
/** A floor at or above this hides ghosts: the softest default ghosts lie well under it. Chosen, not measured. */
const FLOOR_FROM = 20;
const FEWEST_STROKES = 10;

/**
 * Undefined without strokes; remarks need ten.
 *
 * @param velocities 1 to 127, of strokes from as soft to as loud as the player goes.
 * @example velocitySummary([20, 40, 60])?.quantiles[2] // => 40
 */
export function velocitySummary(velocities: readonly number[]): VelocitySummary | undefined {
  const sorted = [...velocities].sort((a, b) => a - b);
  const lowest = sorted[0];
  const highest = sorted.at(-1);
  if (lowest === undefined || highest === undefined) return undefined;
  const shareAt = (velocity: number) =>
    sorted.filter((other) => other === velocity).length / sorted.length;
  const saturated = shareAt(TOP);
  const atFloor = shareAt(lowest);
  const remarks: string[] = [];
  if (sorted.length >= FEWEST_STROKES && saturated >= SATURATED_FROM)
    remarks.push(
      `${percent(saturated)} of the strokes are at 127, so the loudest are all alike; lower the pad's gain or sensitivity on the sound module.`,
    );
  if (sorted.length >= FEWEST_STROKES && lowest >= FLOOR_FROM && atFloor >= AT_FLOOR_FROM)
    remarks.push(
      `Nothing softer than ${lowest} comes through and ${percent(atFloor)} of the strokes are exactly there; lower the pad's threshold or choose a more linear velocity curve on the sound module.`,
    );
  const at = (share: number) => quantileSorted(sorted, share);
  return {
    sorted,
    lowest,
    highest,
    quantiles: [at(0.05), at(0.25), at(0.5), at(0.75), at(0.95)],
    saturated,
    atFloor,
    remarks,
  };
}

const percent = (share: number): string => `${Math.round(share * 100)} %`;
