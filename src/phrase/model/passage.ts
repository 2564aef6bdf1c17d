/** From this bar line on (1-based bar) the layer (1-based) is played, its cycle starting there. */
export interface Passage {
  readonly fromBar: number;
  readonly layer: number;
  /**
   * Only where the target waited for the player, and then it goes on without a pickup: so many partials later than the
   * layer has it after a bar line, negative earlier, its first cycle starts.
   */
  readonly latePartials?: number;
  /** Only where the player was brought back: bars of click ahead of the bar line, in which nothing but the pickup is due. */
  readonly countInBars?: number;
}
