/** How loud a note is meant: softest first. */
export const LEVELS = ['ghost', 'tap', 'accent'] as const;
export type Level = (typeof LEVELS)[number];
