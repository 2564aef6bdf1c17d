/** How loud a note is meant: softest first. */
export const LEVELS = ['ghost', 'tap', 'accent'] as const;
export type Level = (typeof LEVELS)[number];

/**
 * How hard a note of each level is struck where nobody says, of 127. Chosen, to lie well inside the default boundaries of
 * the levels.
 */
export const USUAL_VELOCITIES: Readonly<Record<Level, number>> = {
  ghost: 28,
  tap: 72,
  accent: 112,
};
