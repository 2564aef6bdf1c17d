import { clamp } from '../../time/whole';

/** Where the lines of a bar's picture stand, px from its top; texts by their baseline. */
export const BAR_LINES = {
  count: 13,
  /** The band: flags, accents, hands, feet. */
  top: 19,
  flag: 16,
  wedge: 41,
  hands: 62,
  feet: 81,
  band: 69,
  bottom: 88,
  position: 105,
  height: 109,
} as const;

/** What a bar takes in the list of bars, with its words above it and the room below, px. */
export const WORDS_HEIGHT = 32;
export const WORDS_BASELINE = 22;
export const BAR_HEIGHT = WORDS_HEIGHT + BAR_LINES.height + 20;

const NARROWEST = 21;
const WIDEST = 44;

/**
 * A partial's width where a bar has `width` px: as wide as the bar fits in, within limits; a longer bar is scrolled.
 *
 * @example slotWidth(360, 16) // => 22
 */
export const slotWidth = (width: number, barPartials: number): number =>
  clamp(Math.floor(width / barPartials), NARROWEST, WIDEST);
