/** From this bar line on (1-based bar) the layer (1-based) is played, its cycle starting there. */
export interface Passage {
  readonly fromBar: number;
  readonly layer: number;
}
