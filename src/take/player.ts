/** Who plays: one at a time. */
export const PLAYERS = ['kit', 'keyboard and pads', 'file', 'simulated player'] as const;
export type Player = (typeof PLAYERS)[number];

/**
 * Whether somebody strikes: only what a person played passes a layer. False of a take from before the player was kept.
 *
 * @example isByHand('simulated player') // => false
 */
export const isByHand = (player: Player | undefined): boolean =>
  player === 'kit' || player === 'keyboard and pads';
