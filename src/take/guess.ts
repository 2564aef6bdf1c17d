/** What a player says of the own time before it is told. */
export const GUESSES = ['early', 'fine', 'late'] as const;
export type Guess = (typeof GUESSES)[number];
