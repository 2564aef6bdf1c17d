/** Before anything was heard: in place, somewhere else, anything but the phrase. Chosen, not measured. */
const PRIOR = { inPlace: 0.5, shifted: 0.3, neither: 0.2 };
/** How often a player goes to another place, a partial: once in twenty bars of sixteenths. Chosen by simulation: more often hides weak evidence, more seldom tells more wrong shifts. */
const CHANGE = 1 / 320;

/**
 * Where in a pattern somebody is, by an exact Bayes filter over all shifts of the pattern and "neither": the forward
 * algorithm of a hidden Markov model (Rabiner, Proc. IEEE 77, 1989) whose states are the shifts, which stay but for a
 * rare change to any of them. State d means that the pattern sounds d partials late, 0 to its length less one; the last
 * state is neither. Nothing is allocated after it is built.
 */
export class PlaceFilter {
  readonly #pattern: Uint8Array;
  readonly #change: number;
  readonly #prior: Float64Array;
  /** Probability of each state, given all that was heard. */
  readonly posterior: Float64Array;

  /**
   * @param pattern the index of a symbol for each partial
   * @param change how likely a player is to go elsewhere at any partial, 0 to 1
   * @example [...new PlaceFilter(Uint8Array.of(0, 1)).posterior] // => [0.5, 0.3, 0.2]
   */
  constructor(pattern: Uint8Array, change = CHANGE) {
    const { length } = pattern;
    this.#pattern = pattern;
    this.#change = change;
    const others = length - 1;
    const shifted = others > 0 ? PRIOR.shifted / others : 0;
    const all = others > 0 ? 1 : 1 - PRIOR.shifted;
    this.#prior = new Float64Array(length + 1).fill(shifted / all);
    this.#prior[0] = PRIOR.inPlace / all;
    this.#prior[length] = PRIOR.neither / all;
    this.posterior = this.#prior.slice();
  }

  /** How many shifts there are, and the number of the state that is none of them. */
  get neither(): number {
    return this.#pattern.length;
  }

  /** As before anything was heard. */
  reset(): void {
    this.posterior.set(this.#prior);
  }

  /** The pattern sounds one partial later than was thought (1), or earlier (-1). */
  turn(by: 1 | -1): void {
    const { posterior } = this;
    const last = this.neither - 1;
    if (by > 0) {
      const carried = posterior[last]!;
      posterior.copyWithin(1, 0, last);
      posterior[0] = carried;
    } else {
      const carried = posterior[0]!;
      posterior.copyWithin(0, 1, last + 1);
      posterior[last] = carried;
    }
  }

  /**
   * Hears one partial.
   *
   * @param partial counted from the pattern's start, from 0
   * @param likelihoods of what was heard, for each symbol that may be written there
   * @param otherwise the same where none of the pattern is played
   */
  hear(partial: number, likelihoods: Float64Array, otherwise: number): void {
    const pattern = this.#pattern;
    const { posterior } = this;
    const { length } = pattern;
    const prior = this.#prior;
    const change = this.#change;
    let at = partial % length;
    let sum = 0;
    for (let shift = 0; shift < length; shift++) {
      const predicted = (1 - change) * posterior[shift]! + change * prior[shift]!;
      const value = predicted * likelihoods[pattern[at]!]!;
      posterior[shift] = value;
      sum += value;
      at = at === 0 ? length - 1 : at - 1;
    }
    const predicted = (1 - change) * posterior[length]! + change * prior[length]!;
    sum += posterior[length] = predicted * otherwise;
    for (let state = 0; state <= length; state++) posterior[state]! /= sum;
  }
}
