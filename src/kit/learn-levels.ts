import type { Kit, LevelBoundaries } from './kit';

/** Velocities of a few strokes meant at each level on one pad. */
export interface LevelStrokes {
  readonly ghosts: readonly number[];
  readonly taps: readonly number[];
  readonly accents: readonly number[];
}

/**
 * The player's own boundaries on a pad: the cuts that put the fewest strokes on the wrong side, in
 * the middle of the gap where several are equal. Undefined when a level was not struck or the cuts
 * leave no room for taps: the levels are not played apart.
 *
 * @example learnLevels({ ghosts: [20, 30], taps: [60, 70], accents: [100, 110] }) // => { ghostMax: 44, accentMin: 85 }
 */
export function learnLevels({ ghosts, taps, accents }: LevelStrokes): LevelBoundaries | undefined {
  if (ghosts.length === 0 || taps.length === 0 || accents.length === 0) return undefined;
  const ghostMax = bestCut(ghosts, taps);
  const accentMin = bestCut(taps, accents) + 1;
  return ghostMax + 1 < accentMin ? { ghostMax, accentMin } : undefined;
}

/** Last velocity of the softer kind. */
function bestCut(softer: readonly number[], louder: readonly number[]): number {
  let fewest = Infinity;
  let first = 1;
  let last = 1;
  for (let cut = 1; cut < 127; cut++) {
    const wrong =
      softer.filter((velocity) => velocity > cut).length +
      louder.filter((velocity) => velocity <= cut).length;
    if (wrong < fewest) first = cut;
    if (wrong < fewest || (wrong === fewest && last === cut - 1)) last = cut;
    fewest = Math.min(fewest, wrong);
  }
  return Math.floor((first + last) / 2);
}

/**
 * The kit with new boundaries on one pad zone.
 *
 * @example boundariesOf(withBoundaries(GENERAL_MIDI, 38, { ghostMax: 40, accentMin: 90 }), 38) // => { ghostMax: 40, accentMin: 90 }
 */
export const withBoundaries = (kit: Kit, note: number, boundaries: LevelBoundaries): Kit => ({
  ...kit,
  pads: kit.pads.map((pad) => (pad.note === note ? { ...pad, ...boundaries } : pad)),
});
