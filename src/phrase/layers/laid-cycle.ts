import { soundingNotes, type PatternNote } from './cycle-pattern';
import type { DraftGrace, DraftStroke } from './draft';

/** A cycle with a layer laid on. */
export class LaidCycle {
  /** What the layer was laid on. */
  readonly under: readonly DraftStroke[];
  readonly strokes: readonly DraftStroke[];
  /** Notes that each change of the layer selected or made. */
  readonly selected: readonly number[];
  #notes: readonly PatternNote[] | undefined;

  constructor(
    under: readonly DraftStroke[],
    strokes: readonly DraftStroke[],
    selected: readonly number[],
  ) {
    this.under = under;
    this.strokes = strokes;
    this.selected = selected;
  }

  /** What sounds, in the order it is played. */
  get notes(): readonly PatternNote[] {
    return (this.#notes ??= soundingNotes(this.strokes));
  }

  /** Whether the layer did the same to a cycle that was alike. */
  isAs({ strokes, selected }: LaidCycle): boolean {
    return (
      this.selected.every((count, i) => count === selected[i]) &&
      this.strokes.length === strokes.length &&
      this.strokes.every((stroke, i) => isSameStroke(stroke, strokes[i]!))
    );
  }
}

const isSameStroke = (a: DraftStroke, b: DraftStroke): boolean =>
  isSame(a, b) &&
  a.graces.length === b.graces.length &&
  a.graces.every((grace, i) => isSame(grace, b.graces[i]!));

/** Laid on the same stroke, they differ in what a layer sets. */
const isSame = (a: DraftGrace, b: DraftGrace): boolean =>
  a.limb === b.limb &&
  a.voice === b.voice &&
  a.level === b.level &&
  a.silent === b.silent &&
  a.layers.length === b.layers.length;
