import type { LevelBoundaries } from '../kit';

/** Velocities of a few strokes meant at each level on one pad. */
export interface LevelStrokes {
  readonly ghosts: readonly number[];
  readonly taps: readonly number[];
  readonly accents: readonly number[];
}

/**
 * The player's own boundaries on a pad: the cuts that put the fewest strokes on the wrong side, in
 * the middle of the widest gap where several are equal. Undefined when a level was not struck, a cut
 * parts nothing, or the cuts leave no room for taps: the levels are not played apart.
 *
 * @example learnLevels({ ghosts: [20, 30], taps: [60, 70], accents: [100, 110] }) // => { ghostMax: 44, accentMin: 85 }
 */
export function learnLevels({ ghosts, taps, accents }: LevelStrokes): LevelBoundaries | undefined {
  if (ghosts.length === 0 || taps.length === 0 || accents.length === 0) return undefined;
  const ghostMax = bestCut(ghosts, taps);
  const accentMin = bestCut(taps, accents) + 1;
  const cutsHelp = parts(ghosts, taps, ghostMax) && parts(taps, accents, accentMin - 1);
  return cutsHelp && ghostMax + 1 < accentMin ? { ghostMax, accentMin } : undefined;
}

/** Whether a cut is better than taking all the strokes for the more frequent kind. */
const parts = (softer: readonly number[], louder: readonly number[], cut: number): boolean =>
  misplacedCount(softer, louder, cut) < Math.min(softer.length, louder.length);

/** Last velocity of the softer kind. */
function bestCut(softer: readonly number[], louder: readonly number[]): number {
  const wrongAt = (cut: number) => misplacedCount(softer, louder, cut);
  let fewest = Infinity;
  for (let cut = 1; cut < 127; cut++) fewest = Math.min(fewest, wrongAt(cut));
  let best = { first: 1, length: 0 };
  let first = 1;
  for (let cut = 1; cut <= 127; cut++) {
    if (cut < 127 && wrongAt(cut) === fewest) continue;
    if (cut - first > best.length) best = { first, length: cut - first };
    first = cut + 1;
  }
  return best.first + Math.floor((best.length - 1) / 2);
}

/**
 * Strokes on the wrong side of a cut, the last velocity of the softer kind.
 *
 * @example misplacedCount([20, 60], [50, 90], 55) // => 2
 */
export const misplacedCount = (
  softer: readonly number[],
  louder: readonly number[],
  cut: number,
): number =>
  softer.filter((velocity) => velocity > cut).length +
  louder.filter((velocity) => velocity <= cut).length;
