import type { LevelBoundaries } from '../kit/kit';
import type { Level } from '../phrase/model/level';
import { asksLevel, type Voice } from '../phrase/model/voice';

/**
 * Whether a stroke had the level its note asks for.
 *
 * The edges are closed: a velocity up to and including `ghostMax` is a ghost, one from and including
 * `accentMin` is an accent, what lies between is a tap. A ghost is too loud above its zone, an accent
 * too soft below its own; neither has another side to miss. A tap is too loud in the accent zone
 * where the layer has accents to keep clear of, too soft in the ghost zone where it has ghosts. A
 * layer with neither asks for no level, and neither do voices played with the hi-hat's foot.
 */

export type LevelVerdict = 'as written' | 'too loud' | 'too soft';

/** Which levels besides the tap a layer writes. */
export interface RequiredLevels {
  readonly accents: boolean;
  readonly ghosts: boolean;
}

/**
 * Whether a note in this voice is asked for a level where its layer writes these.
 *
 * @example asksForLevel('snare', { accents: false, ghosts: false }) // => false
 */
export const asksForLevel = (voice: Voice, { accents, ghosts }: RequiredLevels): boolean =>
  asksLevel(voice) && (accents || ghosts);

/**
 * @example levelVerdict({ voice: 'snare', level: 'ghost' }, 51, { ghostMax: 50, accentMin: 95 }, { accents: true, ghosts: true }) // => 'too loud'
 */
export function levelVerdict(
  written: { readonly voice: Voice; readonly level: Level },
  velocity: number,
  { ghostMax, accentMin }: LevelBoundaries,
  asked: RequiredLevels,
): LevelVerdict {
  if (!asksForLevel(written.voice, asked)) return 'as written';
  switch (written.level) {
    case 'ghost':
      return velocity > ghostMax ? 'too loud' : 'as written';
    case 'accent':
      return velocity < accentMin ? 'too soft' : 'as written';
    case 'tap':
      if (asked.accents && velocity >= accentMin) return 'too loud';
      return asked.ghosts && velocity <= ghostMax ? 'too soft' : 'as written';
  }
}
