/** What one step of learning a kit heard. */
export interface PadStrike {
  readonly timeMs: number;
  /** MIDI note number. */
  readonly note: number;
  readonly velocity: number;
  /** Value of controller 4 when the stroke came, if it had spoken by then. */
  readonly openingValue: number | undefined;
  /** Its lowest and highest value since the stroke before, if it spoke in between. */
  readonly openingBefore?: readonly [low: number, high: number] | undefined;
}
