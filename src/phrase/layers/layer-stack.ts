import { looksAtPlace, periodWith, type LayeredPhrase, type CycleNote } from './cycle-pattern';
import { copyStrokes, rootCycle, type LayerStroke } from './layer-stroke';
import { cycleMemory, LayerCheck, type LayerOver } from './layer-check';
import { layChange, LayeredCycle, type LayerPlace } from './layered-cycle';
import { changedGrid, rootGrid, type Grid } from '../model/grid';
import type { Layer, Phrase } from '../model/phrase';

const NO_STROKES: readonly LayerStroke[] = [];
/** Cycles that later ones may turn out alike with. Chosen, not measured: more than a phrase that is practised has. */
const MOST_UNLIKE = 64;

/** Told each time that a layer (1-based) is laid on a cycle (1-based; 0 is the pickup). */
export type LayerWatch = (layer: number, cycle: number) => void;

/**
 * A phrase up to one of its layers, laid on layer upon layer and cycle by cycle as they are asked for, and checked
 * while it is. With one layer more it lays and checks only that one on what is there, and cycles that come out alike
 * are kept once.
 */
export class LayerStack implements LayeredPhrase, LayerOver {
  /** With the layers up to this one. */
  readonly phrase: Phrase;
  /** The same without its last layer; undefined where that is its only one. */
  readonly below: LayerStack | undefined;
  /** The grid that each change of the last layer meets, and the one after them. */
  readonly grids: readonly Grid[];
  /** Cycles after which the selections repeat; Infinity when that is beyond counting. */
  readonly period: number;
  readonly #watch: LayerWatch | undefined;
  readonly #looksAtPlace: boolean;
  readonly #cycles = new Map<number, LayeredCycle>();
  readonly #unlike: LayeredCycle[] = [];
  #bare: readonly LayerStroke[] | undefined;
  #check: LayerCheck | undefined;

  constructor(phrase: Phrase, below: LayerStack | undefined, watch?: LayerWatch) {
    const { layers, cycle } = phrase;
    const { changes } = layers.at(-1)!;
    const grids = [below ? below.grid : rootGrid(phrase)];
    for (const change of changes) grids.push(changedGrid(grids.at(-1)!, change, layers.length));
    this.phrase = phrase;
    this.below = below;
    this.grids = grids;
    this.#watch = watch;
    this.#looksAtPlace = changes.some(looksAtPlace);
    this.period = periodWith(below ? below.period : 1, changes, grids, cycle);
  }

  /** How its partials lie in time. */
  get grid(): Grid {
    return this.grids.at(-1)!;
  }

  /** What is wrong with it. */
  get check(): LayerCheck {
    return (this.#check ??= new LayerCheck(this));
  }

  get cyclesInReach(): number {
    return this.check.cyclesInReach;
  }

  /** As far as a layer (1-based). */
  at(layer: number): LayerStack {
    return layer < this.phrase.layers.length && this.below ? this.below.at(layer) : this;
  }

  /** With one layer more. */
  over(layer: Layer): LayerStack {
    const { phrase } = this;
    return new LayerStack({ ...phrase, layers: [...phrase.layers, layer] }, this, this.#watch);
  }

  /** Sounding notes of a cycle (1-based; 0 is the pickup) in the order they are played. */
  pattern(cycle: number): readonly CycleNote[] {
    return this.cycle(cycle).notes;
  }

  /** A cycle's notes, sounding or not, by position. */
  strokes(cycle: number): readonly LayerStroke[] {
    return this.cycle(cycle).strokes;
  }

  /** The same as they are met by what comes after so many changes of the last layer. */
  strokesAfter(changeCount: number, cycle: number): readonly LayerStroke[] {
    const strokes = copyStrokes(this.#under(cycle));
    const changes = this.phrase.layers.at(-1)!.changes.slice(0, changeCount);
    changes.forEach((change, i) => layChange(strokes, change, this.#place(cycle), i));
    return strokes;
  }

  cycle(cycle: number): LayeredCycle {
    const alike = cycle === 0 ? 0 : ((cycle - 1) % this.period) + 1;
    let layered = this.#cycles.get(alike);
    if (!layered) {
      layered = this.#lay(alike);
      if (alike <= cycleMemory(layered.strokes.length)) this.#keep(alike, layered);
    }
    return layered;
  }

  #keep(cycle: number, layered: LayeredCycle) {
    this.#cycles.set(cycle, layered);
    if (this.#unlike.length < MOST_UNLIKE && !this.#unlike.includes(layered))
      this.#unlike.push(layered);
  }

  #lay(cycle: number): LayeredCycle {
    const under = this.#under(cycle);
    const known = this.#unlike.filter((one) => one.under === under);
    if (known[0] && !this.#looksAtPlace) return known[0];
    this.#watch?.(this.phrase.layers.length, cycle);
    const layered = new LayeredCycle(under, this.phrase.layers.at(-1)!.changes, this.#place(cycle));
    return known.find((one) => one.isAs(layered)) ?? layered;
  }

  /** The cycle with all layers on but the last. */
  #under(cycle: number): readonly LayerStroke[] {
    if (this.below) return this.below.strokes(cycle);
    return cycle === 0 ? NO_STROKES : (this.#bare ??= rootCycle(this.phrase));
  }

  #place(cycle: number): LayerPlace {
    const { phrase, grids } = this;
    return { layerIndex: phrase.layers.length - 1, cycle, cyclePartials: phrase.cycle, grids };
  }
}

/** Of the phrase that was asked for last: a page asks several times what one phrase's layers are. */
let last: { readonly phrase: Phrase; readonly stack: LayerStack } | undefined;
/** Stacks that were laid on while their phrases were checked, as long as somebody holds them. */
const CHECKED = new WeakMap<Phrase, WeakRef<LayerStack>>();

/** Lets layerStack find a phrase's stack that is there already. */
export function shareStack(stack: LayerStack): void {
  if (CHECKED.get(stack.phrase)?.deref() !== stack) CHECKED.set(stack.phrase, new WeakRef(stack));
}

/**
 * A phrase up to a layer (1-based), ready to give any cycle.
 *
 * @throws RangeError when the phrase has no such layer.
 */
export function layerStack(phrase: Phrase, layer: number = phrase.layers.length): LayerStack {
  if (!Number.isInteger(layer) || layer < 1 || layer > phrase.layers.length)
    throw new RangeError(`layer ${layer} is not one of 1 to ${phrase.layers.length}`);
  if (last?.phrase !== phrase)
    last = { phrase, stack: CHECKED.get(phrase)?.deref() ?? wholeStack(phrase) };
  return last.stack.at(layer);
}

function wholeStack(phrase: Phrase): LayerStack {
  const [first, ...others] = phrase.layers;
  const bottom = new LayerStack({ ...phrase, layers: [first!] }, undefined);
  return others.reduce((stack, one) => stack.over(one), bottom);
}
