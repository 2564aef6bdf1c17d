import { DraftCheck } from '../../phrase/check/draft-check';
import type { LayerStack } from '../../phrase/layers/layer-stack';
import type { Phrase } from '../../phrase/model/phrase';
import type { PhraseDraft } from '../../phrase/model/phrase-draft';

/** A phrase at one of its layers (1-based). */
export interface ShownLayer {
  readonly stack: LayerStack;
  readonly phrase: Phrase;
  readonly layer: number;
  /** Whether it is the layer that is edited, as it is written now. */
  readonly current: boolean;
}

/**
 * A draft that is written on, checked from the first changed layer on, with the last state that was a phrase, which is
 * what sounds. It is worked out with each edit, not derived: a composition outlives the screen that opened it.
 */
export class CheckedDraft {
  #check: DraftCheck = $state.raw()!;
  #good: DraftCheck | undefined = $state.raw();
  #shown: ShownLayer | undefined = $state.raw();

  constructor(draft: PhraseDraft, layer: number) {
    this.#check = new DraftCheck(draft);
    this.take(draft, layer);
  }

  get check(): DraftCheck {
    return this.#check;
  }
  /** The last state that was a phrase. */
  get good(): Phrase | undefined {
    return this.#good?.phrase;
  }
  /** The layer that is edited, or what is nearest to it and can be shown. */
  get shown(): ShownLayer | undefined {
    return this.#shown;
  }

  /** Another draft, and the layer that is edited (1-based). */
  take(draft: PhraseDraft, layer: number): void {
    const check = this.#check.with(draft);
    this.#check = check;
    if (check.phrase) this.#good = check;
    this.#shown = this.#show(layer);
  }

  #show(layer: number): ShownLayer | undefined {
    const current = this.#check.upTo(layer);
    if (current) return shownAs(current, true);
    const good = this.#good?.stack;
    if (good) return shownAs(good, false, Math.min(layer, good.phrase.layers.length));
    for (let below = layer - 1; below > 0; below--) {
      const part = this.#check.upTo(below);
      if (part) return shownAs(part, false);
    }
    return undefined;
  }
}

const shownAs = (
  stack: LayerStack,
  current: boolean,
  layer = stack.phrase.layers.length,
): ShownLayer => ({ stack: stack.at(layer), phrase: stack.phrase, layer, current });
