import {
  laidGrids,
  soundingNotes,
  type LaidGrid,
  type LaidPhrase,
  type PatternNote,
} from './cycle-pattern';
import { copied, type DraftStroke } from './draft';
import { bareCycle, layLayer, type LaidChange, type LayWatch } from './lay-on';
import type { Layer, Phrase } from './phrase';

/** A cycle with all layers on. */
interface LaidCycle {
  readonly strokes: readonly DraftStroke[];
  /** What sounds of it at each layer, from 1, that is not left to the layers below. */
  readonly patterns: readonly (readonly PatternNote[])[];
  /** Notes that each change of the last layer selected or made. */
  readonly selected: readonly number[];
}

/**
 * A phrase with every layer laid on, cycle by cycle as they are asked for. With one layer more it lays only that
 * one on what is there.
 */
export class LaidLayers {
  readonly phrase: Phrase;
  /** The same phrase without its last layer, where this was made from it. */
  readonly below: LaidLayers | undefined;
  readonly #grids: readonly LaidGrid[];
  readonly #cycles = new Map<number, LaidCycle>();
  readonly #layers: (LaidPhrase | undefined)[] = [];

  constructor(phrase: Phrase, below?: LaidLayers) {
    this.phrase = phrase;
    this.below = below;
    this.#grids = laidGrids(phrase, below ? below.#grids : []);
  }

  /** With one layer more, which nobody has checked. */
  plus(layer: Layer): LaidLayers {
    const { phrase } = this;
    return new LaidLayers({ ...phrase, layers: [...phrase.layers, layer] }, this);
  }

  /** The phrase up to a layer (1-based). */
  at(layer: number): LaidPhrase {
    if (this.below && layer <= this.below.phrase.layers.length) return this.below.at(layer);
    const { phrase } = this;
    const { grid, period } = this.#grids[layer]!;
    return (this.#layers[layer] ??= {
      phrase,
      grid,
      period,
      pattern: (cycle) =>
        this.#cycle(cycle === 0 ? 0 : ((cycle - 1) % period) + 1).patterns[layer]!,
    });
  }

  get whole(): LaidPhrase {
    return this.at(this.phrase.layers.length);
  }

  /** Notes that a change of the last layer selected or made in a cycle, 0 for the pickup. */
  selected(changeIndex: number, cycle: number): number {
    return this.#cycle(cycle).selected[changeIndex]!;
  }

  #cycle(cycle: number): LaidCycle {
    let laid = this.#cycles.get(cycle);
    if (!laid) this.#cycles.set(cycle, (laid = this.#lay(cycle)));
    return laid;
  }

  #lay(cycle: number): LaidCycle {
    const { phrase, below } = this;
    const strokes = below ? copied(below.#strokes(cycle)) : bareCycle(phrase, cycle);
    const patterns: PatternNote[][] = [];
    const watch = new SelectedCounts();
    const last = phrase.layers.length - 1;
    for (let layerIndex = below ? last : 0; layerIndex <= last; layerIndex++) {
      const { grid } = this.#grids[layerIndex]!;
      const place = { phrase, layerIndex, cycle, grid };
      layLayer(strokes, place, layerIndex === last ? watch : undefined);
      patterns[layerIndex + 1] = soundingNotes(strokes);
    }
    return { strokes, patterns, selected: watch.counts };
  }

  /** Any cycle's strokes are those of the cycle alike. */
  #strokes(cycle: number): readonly DraftStroke[] {
    const { period } = this.#grids.at(-1)!;
    return this.#cycle(cycle === 0 ? 0 : ((cycle - 1) % period) + 1).strokes;
  }
}

/** Notes that each change selected or made. */
class SelectedCounts implements LayWatch {
  readonly counts: number[] = [];

  before(): undefined {
    return undefined;
  }

  after({ selected }: LaidChange): void {
    this.counts.push(selected);
  }
}
