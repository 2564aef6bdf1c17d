import type { LaidLayers } from '../layers/laid-layers';
import { layerFile } from '../file/write-phrase';

/** Tells phrases of one title, meter, tempo and swing apart: those that are alike have the same number. */
export class PhraseNumbers {
  readonly #numbers = new Map<string, number>();
  readonly #known = new WeakMap<LaidLayers, number>();

  of(laid: LaidLayers): number {
    let number = this.#known.get(laid);
    if (number === undefined) this.#known.set(laid, (number = this.#find(laid)));
    return number;
  }

  #find({ below, phrase }: LaidLayers): number {
    const { subdivision, groupingText, cycle, layers } = phrase;
    const start = below ? this.of(below) : `${subdivision} ${groupingText} ${cycle}`;
    const key = `${start} ${JSON.stringify(layerFile(layers.at(-1)!))}`;
    let number = this.#numbers.get(key);
    if (number === undefined) this.#numbers.set(key, (number = this.#numbers.size));
    return number;
  }
}
