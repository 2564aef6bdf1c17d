/** How loud a note is meant: softest first. */
export const LEVELS = ['ghost', 'tap', 'accent'] as const;
export type Level = (typeof LEVELS)[number];

/**
 * The greatest velocity of a ghost and the least of an accent, of 127, where nobody says other ones. Chosen, not measured:
 * used until the player's own are learned.
 */
export const DEFAULT_BOUNDARIES = { ghostMax: 50, accentMin: 95 } as const;

/**
 * How hard a note of each level is struck where nobody says, of 127. Chosen, to lie well inside the default boundaries of
 * the levels.
 */
export const USUAL_VELOCITIES: Readonly<Record<Level, number>> = {
  ghost: 28,
  tap: 72,
  accent: 112,
};
