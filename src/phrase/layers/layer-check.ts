import { layerPlaces, visitSelectors } from './check-places';
import { layerWork, rootNotes, type LayerWork } from './layer-work';
import type { LayeredCycle } from './layered-cycle';
import { givesLimbs } from './layered-cycle';
import type { Grid } from '../model/grid';
import { limbName, LIMBS, type Limb } from '../model/limb';
import type { Change, Phrase } from '../model/phrase';
import { MAX_PATTERN } from '../model/phrase-file';
import { changePlace, phraseError, type PhraseError } from '../model/phrase-error';

/**
 * Looks (see LayerWork) that all layers together take at most in one cycle. Chosen for all layers and changes there may
 * be on the longest cycle: a third of a second where a look takes a third of a microsecond.
 */
const MAX_LOOKS = 1_100_000;
/** The same in all cycles that are looked through. Chosen, not measured: far beyond any phrase that is practised. */
const MAX_LOOKS_THROUGH = MAX_LOOKS / 2;
/** Strokes of a pattern of 4096 partials with every limb on each. */
const STROKE_MEMORY = 4 * MAX_PATTERN;
/**
 * Cycles of so many strokes that a LayerStack keeps: so many of the layers below are there already. Chosen, not
 * measured: more than a phrase that is practised takes to repeat, and every pattern that can be taken apart.
 */
export const cycleMemory = (strokes: number): number =>
  Math.max(64, Math.floor(STROKE_MEMORY / strokes));

/** A layer as it is laid on those below it. */
export interface LayerOver {
  /** Up to the layer. */
  readonly phrase: Phrase;
  /** The grid that each change meets, and the one after the last. */
  readonly grids: readonly Grid[];
  /** See LayerStack. */
  readonly period: number;
  readonly below: { readonly check: LayerCheck } | undefined;
  /** 1-based; 0 is the pickup. */
  cycle(cycle: number): LayeredCycle;
}

/** A count of strokes that a selector asks for, with the most there were. */
interface NumberWanted {
  readonly changeIndex: number;
  readonly wanted: number;
  readonly limb: Limb | undefined;
  most: number;
}

/** What the cycles told of one layer, laid on until they repeat or all is found. */
interface Search {
  /** The first cycle in which a limb is wanted twice, or a grace note falls to a foot. */
  readonly clash: { readonly cycle: number; readonly errors: readonly PhraseError[] } | undefined;
  readonly beyondStrokes: readonly PhraseError[];
  readonly empty: readonly PhraseError[];
  /** Cycles looked through. */
  readonly cycles: number;
  /** Whether that was not enough to tell. */
  readonly isCut: boolean;
}

/**
 * What is wrong with a layer and those below it. What was found right below is not looked at again: what a layer
 * selects does not depend on what comes after it.
 */
export class LayerCheck {
  readonly #layer: LayerOver;
  readonly #below: LayerCheck | undefined;
  readonly #longestPickup: number;
  readonly #work: LayerWork;
  /** Looks in one cycle, of this layer and those below. */
  readonly #looks: number;
  /** Cycles that the layers below keep at least. */
  readonly #keptBelow: number;
  readonly #givesLimbs: boolean;
  readonly #misplaced: readonly PhraseError[];
  #search: Search | undefined;
  #errors: readonly PhraseError[] | undefined;

  constructor(layer: LayerOver) {
    const below = layer.below?.check;
    const { changes } = layer.phrase.layers.at(-1)!;
    this.#layer = layer;
    this.#below = below;
    this.#work = layerWork(changes, below ? below.#work.notes : rootNotes(layer.phrase));
    this.#looks = (below ? below.#looks : 0) + this.#work.looks;
    this.#keptBelow = below ? cycleMemory(below.#work.notes.mains) : 0;
    this.#givesLimbs = (below ? below.#givesLimbs : false) || changes.some(givesLimbs);
    ({ errors: this.#misplaced, longestPickup: this.#longestPickup } = layerPlaces(
      layer.phrase,
      layer.grids,
      below ? below.#longestPickup : 0,
    ));
  }

  /**
   * Places that changes name, before all else; then what changes select, cycle by cycle until they repeat: a limb
   * wanted twice, grace notes on a foot, an nth that no stroke has, a change without a note.
   */
  get errors(): readonly PhraseError[] {
    return (this.#errors ??= this.#find());
  }

  /** See LayeredPhrase; at least one. */
  get cyclesInReach(): number {
    return Math.max(1, Math.floor(MAX_LOOKS_THROUGH / this.#looks));
  }

  #find(): readonly PhraseError[] {
    const { phrase, period } = this.#layer;
    if (this.#isPlainlyRight()) return NO_ERRORS;
    const checks = this.#below && this.#below.errors.length > 0 ? this.#throughout() : [this];
    const misplaced = checks.flatMap((check) => check.#misplaced);
    if (misplaced.length > 0) return misplaced;
    if (!hasStroke(phrase)) return [phraseError('NO_STROKE', 'grouping')];
    if (this.#looks > MAX_LOOKS)
      return tooLarge(`${this.#looks} looks at the notes of a cycle`, MAX_LOOKS);
    const searches = checks.map((check) => (check.#search ??= check.#lookThrough()));
    const clashes = searches.flatMap(({ clash }) => clash ?? []);
    if (clashes.length > 0) return clashes.reduce((a, b) => (b.cycle < a.cycle ? b : a)).errors;
    const cut = searches.find(({ isCut }) => isCut);
    if (cut)
      return tooLarge(`${period} cycles before its changes select the same again`, cut.cycles);
    const beyond = searches.flatMap(({ beyondStrokes }) => beyondStrokes);
    return [...beyond, ...searches.flatMap(({ empty }) => empty)];
  }

  /** Whether nothing is wrong below, and the layer needs no more than a look: by far the most frequent case. */
  #isPlainlyRight(): boolean {
    if (!this.#below || this.#looks > MAX_LOOKS) return false;
    if (this.#below.errors.length + this.#misplaced.length > 0) return false;
    this.#search ??= this.#lookThrough();
    return this.#search === NOTHING_WRONG;
  }

  /** From the first layer on. */
  #throughout(): readonly LayerCheck[] {
    const checks: LayerCheck[] = [this];
    for (let below = this.#below; below; below = below.#below) checks.push(below);
    return checks.reverse();
  }

  /** Cycles that can be looked through with the looks that the layers below left over. */
  get #mostCycles(): number {
    const left = MAX_LOOKS_THROUGH - (this.#below ? this.#below.#looksTaken : 0);
    const kept = this.#keptBelow * this.#work.looks;
    const cycles =
      left <= kept ? left / this.#work.looks : this.#keptBelow + (left - kept) / this.#looks;
    return Math.max(1, Math.floor(cycles));
  }

  /** By this layer and those below, in all cycles that they looked through. */
  get #looksTaken(): number {
    const { cycles } = (this.#search ??= this.#lookThrough());
    return (
      (this.#below ? this.#below.#looksTaken : 0) +
      Math.min(cycles, this.#keptBelow) * this.#work.looks +
      Math.max(0, cycles - this.#keptBelow) * this.#looks
    );
  }

  #lookThrough(): Search {
    const { phrase, period } = this.#layer;
    const { changes } = phrase.layers.at(-1)!;
    const layerIndex = phrase.layers.length - 1;
    const mayClash =
      changes.some(givesLimbs) ||
      (this.#givesLimbs && changes.some(({ kind }) => kind === 'add' || kind === 'pickup'));
    if (!mayClash && isPlainlyRight(changes, this.#layer)) return NOTHING_WRONG;
    const empty = new Set(changes.flatMap((change, i) => ('where' in change ? [i] : [])));
    const numbers = numbersWanted(changes, layerIndex);
    const isMet = () =>
      empty.size === 0 && [...numbers.values()].every(({ wanted, most }) => wanted <= most);
    const last = Math.min(period, this.#mostCycles);
    let cycle = 0;
    for (; cycle <= last; cycle++) {
      const { selected, counts, clashes } = this.#layer.cycle(cycle);
      if (clashes.length > 0)
        return { ...NOTHING_WRONG, cycles: cycle, clash: { cycle, errors: clashes } };
      for (const index of empty) if (selected[index]! > 0) empty.delete(index);
      for (const number of numbers.values())
        for (const limb of number.limb ? [number.limb] : LIMBS)
          number.most = Math.max(number.most, counts[number.changeIndex]![limb]);
      if (cycle > 0 && !mayClash && isMet()) break;
    }
    const beyondStrokes = [...numbers].flatMap(([place, number]) => beyond(place, number));
    const isTold = (place: string) =>
      beyondStrokes.some((one) => one.place.startsWith(`${place}.`));
    return {
      clash: undefined,
      cycles: Math.min(cycle, last),
      isCut: period > last && (mayClash || !isMet()),
      beyondStrokes,
      empty: [...empty]
        .map((index) => changePlace(layerIndex, index))
        .filter((place) => !isTold(place))
        .map((place) => phraseError('SELECTS_NOTHING', place)),
    };
  }
}

const NO_ERRORS: readonly PhraseError[] = [];
const NOTHING_WRONG: Search = {
  clash: undefined,
  beyondStrokes: [],
  empty: [],
  cycles: 1,
  isCut: false,
};

const tooLarge = (found: string, expected: number): readonly PhraseError[] => [
  phraseError('TOO_LARGE', 'layers', { found, expected }),
];

/** Whether the pickup and the first cycle tell all there is to know of a layer that numbers no strokes: nothing is wrong. */
function isPlainlyRight(changes: readonly Change[], layer: LayerOver): boolean {
  const pickup = layer.cycle(0);
  const first = layer.cycle(1);
  if (first.counts.length + pickup.clashes.length + first.clashes.length > 0) return false;
  return changes.every(
    (change, i) => !('where' in change) || first.selected[i]! > 0 || pickup.selected[i]! > 0,
  );
}

/** Whether the bare grouping has a stroke before the cycle's end cuts it. */
const hasStroke = ({ grouping, cycle }: Phrase): boolean =>
  grouping.slice(0, cycle).some((step) => step.length > 0);

/** By place in the file. */
function numbersWanted(
  changes: readonly Change[],
  layerIndex: number,
): ReadonlyMap<string, NumberWanted> {
  const numbers = new Map<string, NumberWanted>();
  changes.forEach((change, changeIndex) => {
    if (!('where' in change)) return;
    visitSelectors(change.where, `${changePlace(layerIndex, changeIndex)}.where`, (where, at) =>
      where.nth?.forEach((wanted, i) => {
        numbers.set(`${at}.nth[${i}]`, { changeIndex, wanted, limb: where.limb, most: 0 });
      }),
    );
  });
  return numbers;
}

function beyond(place: string, { wanted, most, limb }: NumberWanted): PhraseError[] {
  if (wanted <= most) return [];
  const facts = {
    found: wanted,
    expected: most === 0 ? 'none' : most,
    limb: limb ? `the ${limbName(limb)}` : 'the busiest limb',
  };
  return [phraseError('NTH_BEYOND_STROKES', place, facts)];
}
