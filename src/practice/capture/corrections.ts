/** What the player says of something played, after it was played. */
export interface Corrections {
  /** Such as "7/8". */
  readonly meter?: string;
  /** In beats of the meter. */
  readonly tempoBpm?: number;
  /** The length of the cycle, however the beats are counted. */
  readonly cyclePartials?: number;
  /** The partial of the bar, from 0, on which the first stroke falls, and how many partials make a beat. */
  readonly firstOn?: { readonly partial: number; readonly subdivision: number };
}
