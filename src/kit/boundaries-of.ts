import { DEFAULT_BOUNDARIES } from '../phrase/model/level';
import type { Kit, LevelBoundaries } from './kit';

/**
 * Where ghosts end and accents begin on a pad, 1 to 127; the defaults where the kit says nothing.
 *
 * @example boundariesOf({ pads: [{ note: 38, ghostMax: 40 }] }, 38) // => { ghostMax: 40, accentMin: 95 }
 */
export function boundariesOf(kit: Pick<Kit, 'pads'>, note: number): LevelBoundaries {
  const pad = kit.pads.find((candidate) => candidate.note === note);
  return {
    ghostMax: pad?.ghostMax ?? DEFAULT_BOUNDARIES.ghostMax,
    accentMin: pad?.accentMin ?? DEFAULT_BOUNDARIES.accentMin,
  };
}
