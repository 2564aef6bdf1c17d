import {
  bareGrid,
  laidGrid,
  looksAtPlace,
  type LaidGrid,
  type LaidPhrase,
  type PatternNote,
} from './cycle-pattern';
import { copied, rootCycle, type DraftStroke } from './draft';
import type { Grid } from '../model/grid';
import { LaidCycle } from './laid-cycle';
import { layLayer } from './lay-on';
import type { Layer, Phrase } from '../model/phrase';

const NO_STROKES: readonly DraftStroke[] = [];

/**
 * A phrase with every layer laid on, layer upon layer and cycle by cycle as they are asked for. With one layer more
 * it lays only that one on what is there, and cycles that come out alike are kept once.
 */
export class LaidLayers implements LaidPhrase {
  readonly phrase: Phrase;
  readonly grid: Grid;
  readonly period: number;
  /** The same phrase without its last layer; undefined where that is its only one. */
  readonly below: LaidLayers | undefined;
  readonly #start: LaidGrid;
  readonly #looksAtPlace: boolean;
  readonly #cycles = new Map<number, LaidCycle>();
  #bare: readonly DraftStroke[] | undefined;

  constructor(phrase: Phrase, below?: LaidLayers) {
    const { layers, cycle } = phrase;
    const top = layers.at(-1)!;
    this.phrase = phrase;
    this.below =
      below ??
      (layers.length > 1 ? new LaidLayers({ ...phrase, layers: layers.slice(0, -1) }) : undefined);
    this.#start = this.below ?? bareGrid(phrase);
    this.#looksAtPlace = top.changes.some(looksAtPlace);
    ({ grid: this.grid, period: this.period } = laidGrid(this.#start, top, layers.length, cycle));
  }

  /** With one layer more, which nobody has checked. */
  plus(layer: Layer): LaidLayers {
    const { phrase } = this;
    return new LaidLayers({ ...phrase, layers: [...phrase.layers, layer] }, this);
  }

  pattern(cycle: number): readonly PatternNote[] {
    return this.#cycle(cycle).notes;
  }

  /** A cycle's notes, sounding or not, by position. */
  strokes(cycle: number): readonly DraftStroke[] {
    return this.#cycle(cycle).strokes;
  }

  /** Notes that a change of the last layer selected or made in a cycle, 0 for the pickup. */
  selected(changeIndex: number, cycle: number): number {
    return this.#cycle(cycle).selected[changeIndex]!;
  }

  #cycle(cycle: number): LaidCycle {
    const alike = cycle === 0 ? 0 : ((cycle - 1) % this.period) + 1;
    let laid = this.#cycles.get(alike);
    if (!laid) this.#cycles.set(alike, (laid = this.#lay(alike)));
    return laid;
  }

  #lay(cycle: number): LaidCycle {
    const under = this.#under(cycle);
    const known = [...this.#cycles.values()].filter((one) => one.under === under);
    if (known[0] && !this.#looksAtPlace) return known[0];
    const laid = this.#layOver(under, cycle);
    return known.find((one) => one.isAs(laid)) ?? laid;
  }

  /** The cycle with all layers on but the last. */
  #under(cycle: number): readonly DraftStroke[] {
    if (this.below) return this.below.#cycle(cycle).strokes;
    return cycle === 0 ? NO_STROKES : (this.#bare ??= rootCycle(this.phrase));
  }

  #layOver(under: readonly DraftStroke[], cycle: number): LaidCycle {
    const { phrase } = this;
    const strokes = copied(under);
    const selected: number[] = [];
    const layerIndex = phrase.layers.length - 1;
    layLayer(
      strokes,
      { phrase, layerIndex, cycle, grid: this.#start.grid },
      { after: (laid) => selected.push(laid.selected) },
    );
    return new LaidCycle(under, strokes, selected);
  }
}
