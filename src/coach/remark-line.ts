import type { FindingCode } from './wording';

/** What is said while a take goes on. */
export interface Remark {
  readonly code: FindingCode;
  readonly finding: string;
  readonly advice: string;
}

/** What cannot wait, since all else is wrong until it is mended. */
const URGENT: ReadonlySet<FindingCode> = new Set(['other tempo', 'lost place', 'voice mapped']);
/** Passes after which it is not said more seldom still. Chosen, not measured. */
const MOST_HALVINGS = 2;

/**
 * The one line beside the lane: it stays for so many bars, twice as many after each pass, since feedback that thins out is
 * kept better (Winstein & Schmidt 1990, J. Exp. Psychol. LMC 16:677-691), but for what cannot wait and what is over.
 */
export class RemarkLine {
  #said: Remark | undefined;
  #sinceBar = 0;

  /** A take begins. */
  begin(): void {
    this.#said = undefined;
  }

  /**
   * What is said now: undefined where it is to wait for the end of the take.
   *
   * @param found what the figures up to this bar have to say first
   * @param bar 1-based
   * @param every bars that a remark stays; Infinity where nothing is said but what cannot wait
   * @param passes times that the layer was passed
   * @example new RemarkLine().next({ code: 'spread', finding: 'Spread 20 ms.', advice: '' }, 5, 8, 0)?.finding // => 'Spread 20 ms.'
   */
  next(found: Remark, bar: number, every: number, passes: number): Remark | undefined {
    const bars = every * 2 ** Math.min(passes, MOST_HALVINGS);
    if (!this.#mayChange(found, bar, bars)) return this.#said;
    this.#sinceBar = bar;
    this.#said = every < Infinity || URGENT.has(found.code) ? found : undefined;
    return this.#said;
  }

  #mayChange({ code }: Remark, bar: number, bars: number): boolean {
    const said = this.#said;
    if (!said || said.code === 'undecided') return true;
    if (URGENT.has(code)) return code !== said.code || bar >= this.#sinceBar + bars;
    return URGENT.has(said.code) || bar >= this.#sinceBar + bars;
  }
}
