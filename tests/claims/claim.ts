/** Something said to players, how often it was said, and of these how often it was not so. */
export interface Claim {
  readonly claim: string;
  readonly said: number;
  readonly wrong: number;
}

/** Counts how often something is said, and how often wrongly. */
export class ClaimCount {
  readonly #claim: string;
  #said = 0;
  #wrong = 0;

  constructor(claim: string) {
    this.#claim = claim;
  }

  add(isWrong: boolean): void {
    this.#said++;
    if (isWrong) this.#wrong++;
  }

  get claim(): Claim {
    return { claim: this.#claim, said: this.#said, wrong: this.#wrong };
  }
}

/** The wrong share of what was said; 0 where nothing was. @example wrongShare({ claim: 'sure', said: 8, wrong: 2 }) // => 0.25 */
export const wrongShare = ({ said, wrong }: Claim): number => (said === 0 ? 0 : wrong / said);

/** One row of a table. */
export const claimLine = (one: Claim): string =>
  `  ${one.claim.padEnd(40)} said ${String(one.said).padStart(5)}, wrong ${String(one.wrong).padStart(4)}, ${(100 * wrongShare(one)).toFixed(1).padStart(5)} %`;
