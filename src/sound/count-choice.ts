/** What is counted aloud: nothing, the beats of the bar, or every cycle from one on. */
export const COUNT_FOLLOWS = ['off', 'meter', 'cycle'] as const;

export interface CountChoice {
  readonly follows: (typeof COUNT_FOLLOWS)[number];
  /** Whether the syllables between the beats are counted too, where there is time to say them. */
  readonly syllables: boolean;
}
