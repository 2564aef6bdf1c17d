/**
 * Which phrase gets the layer of a form: the one it was fitted to, or a new one where that one is not the player's own
 * or has more layers over the one that was fitted.
 */
export type FitGoal = 'this phrase' | 'a new phrase';
