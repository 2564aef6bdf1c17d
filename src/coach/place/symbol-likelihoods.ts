import type { PlacePattern, PlaceSymbol } from './place-pattern';

/** How often a note is played as written, and how often it is missed; else something else is struck. */
const AS_WRITTEN = 0.9;
const MISSED = 0.05;
/** How often something is struck where nothing is written. */
const STRUCK_IN_REST = 0.05;
/** How often the level is the written one, where the voice is. Levels are learned last. Chosen, not measured. */
const LEVEL_AS_WRITTEN = 0.9;
/** Of what is struck amiss, the part that the pattern does not have, and over how many sounds that is spread. Chosen, not measured. */
const FOREIGN = 0.1;
const FOREIGN_SOUNDS = 32;
/**
 * Of the rest, the part in which any sound of the pattern is as likely as another; else each is as likely as it is written.
 * Chosen by simulation: without it one crash struck amiss tells a place where the pattern has one crash, and is wrong.
 */
const ANY_SOUND = 0.5;

/** What was heard on one partial, voices as bits. */
export interface PartialSound {
  voices: number;
  accents: number;
  ghosts: number;
  /** Voices whose strokes tell no level. */
  withoutLevel: number;
}

/** How likely what was heard on a partial is, for each symbol of a pattern that may be written there. */
export class SymbolLikelihoods {
  readonly values: Float64Array;
  readonly #symbols: readonly PlaceSymbol[];
  readonly #matches: Float64Array;
  /** Of the partials that sound, how many have each symbol. */
  readonly #shares: Float64Array;
  /** Of what is struck amiss and is in the pattern, how much is each symbol. */
  readonly #amissShares: Float64Array;
  readonly #rests: number;
  /** Voices that have accents, or ghosts, anywhere in the pattern: others are not heard for their level. */
  readonly #accented: number;
  readonly #ghosted: number;
  otherwise = 1;

  constructor({ symbols, partials }: PlacePattern) {
    this.#symbols = symbols;
    this.values = new Float64Array(symbols.length);
    this.#matches = new Float64Array(symbols.length);
    const counts = symbols.map((_, s) => partials.filter((symbol) => symbol === s).length);
    const rests = counts.reduce((sum, count, s) => sum + (symbols[s]!.voices === 0 ? count : 0), 0);
    const sounding = Math.max(1, partials.length - rests);
    this.#rests = rests / partials.length;
    this.#shares = Float64Array.from(counts, (count, s) =>
      symbols[s]!.voices === 0 ? 0 : count / sounding,
    );
    const sounds = symbols.filter(({ voices }) => voices !== 0).length;
    this.#amissShares = this.#shares.map((share) =>
      share > 0 ? ANY_SOUND / sounds + (1 - ANY_SOUND) * share : 0,
    );
    this.#accented = symbols.reduce((bits, { accents }) => bits | accents, 0);
    this.#ghosted = symbols.reduce((bits, { ghosts }) => bits | ghosts, 0);
  }

  /** Hears a partial; `values` and `otherwise` then tell its likelihoods. */
  hear(heard: PartialSound): void {
    const symbols = this.#symbols;
    const { values } = this;
    const silent = this.#rests * (1 - STRUCK_IN_REST) + (1 - this.#rests) * MISSED;
    if (heard.voices === 0) {
      for (let s = 0; s < symbols.length; s++)
        values[s] = symbols[s]!.voices === 0 ? 1 - STRUCK_IN_REST : MISSED;
      this.otherwise = silent;
      return;
    }
    let usual = FOREIGN / FOREIGN_SOUNDS;
    let amiss = usual;
    for (let s = 0; s < symbols.length; s++) {
      const match = this.#match(symbols[s]!, heard);
      this.#matches[s] = match;
      usual += (1 - FOREIGN) * this.#shares[s]! * match;
      amiss += (1 - FOREIGN) * this.#amissShares[s]! * match;
    }
    for (let s = 0; s < symbols.length; s++)
      values[s] =
        symbols[s]!.voices === 0
          ? Math.max(STRUCK_IN_REST * amiss, this.#matches[s]! * (1 - STRUCK_IN_REST))
          : AS_WRITTEN * this.#matches[s]! + (1 - AS_WRITTEN - MISSED) * amiss;
    this.otherwise = (1 - silent) * usual;
  }

  /** How likely the levels that were heard are where this symbol is played; 0 where other voices were. */
  #match(symbol: PlaceSymbol, heard: PartialSound): number {
    const { voices, accents, ghosts, graces } = symbol;
    if ((heard.voices & voices) !== voices || (heard.voices & ~(voices | graces)) !== 0) return 0;
    let likelihood = 1;
    for (let left = voices & ~heard.withoutLevel; left !== 0; left &= left - 1) {
      const bit = left & -left;
      const isAccented = (this.#accented & bit) !== 0;
      const isGhosted = (this.#ghosted & bit) !== 0;
      if (!isAccented && !isGhosted) continue;
      const differs =
        (isAccented && ((accents ^ heard.accents) & bit) !== 0) ||
        (isGhosted && ((ghosts ^ heard.ghosts) & bit) !== 0);
      const others = isAccented && isGhosted ? 2 : 1;
      likelihood *= differs ? (1 - LEVEL_AS_WRITTEN) / others : LEVEL_AS_WRITTEN;
    }
    return likelihood;
  }
}
