import { applyChange } from './apply-change';
import { soundingNotes, type CycleNote } from './cycle-pattern';
import { copyStrokes, type LayerGrace, type LayerStroke } from './layer-stroke';
import { hasNumbers } from './matches-selector';
import type { Grid } from '../model/grid';
import { isHand, limbName, type Limb } from '../model/limb';
import type { Change } from '../model/phrase';
import { changePlace, MOST_ERRORS, phraseError, type PhraseError } from '../model/phrase-error';

type LimbCounts = Readonly<Record<Limb, number>>;

/** Where a layer is laid on. */
export interface LayerPlace {
  /** From 0. */
  readonly layerIndex: number;
  /** 1-based; 0 is the pickup. */
  readonly cycle: number;
  readonly cyclePartials: number;
  /** The grid that each change meets. */
  readonly grids: readonly Grid[];
}

/** A cycle with a layer laid on, and what was seen on the way. */
export class LayeredCycle {
  /** What the layer was laid on. */
  readonly under: readonly LayerStroke[];
  readonly strokes: readonly LayerStroke[];
  /** Notes that each change of the layer selected or made. */
  readonly selected: readonly number[];
  /** Strokes of each limb that a change met which numbers them. */
  readonly counts: readonly (LimbCounts | undefined)[];
  /** Limbs asked for two strokes at once, and grace notes on a foot, by the first change that brings it about. */
  readonly clashes: readonly PhraseError[];
  #notes: readonly CycleNote[] | undefined;

  constructor(under: readonly LayerStroke[], changes: readonly Change[], place: LayerPlace) {
    const strokes = copyStrokes(under);
    const selected: number[] = [];
    const counts: (LimbCounts | undefined)[] = [];
    let clashes: readonly PhraseError[] = [];
    changes.forEach((change, i) => {
      if ('where' in change && hasNumbers(change.where)) counts[i] = countLimbs(strokes);
      selected.push(layChange(strokes, change, place, i));
      if (clashes.length === 0 && movesLimbs(change))
        clashes = clashesOf(strokes, changePlace(place.layerIndex, i));
    });
    this.under = under;
    this.strokes = strokes;
    this.selected = selected;
    this.counts = counts;
    this.clashes = clashes;
  }

  /** What sounds, in the order it is played. */
  get notes(): readonly CycleNote[] {
    return (this.#notes ??= soundingNotes(this.strokes));
  }

  /** Whether the layer did the same to a cycle that was alike, with nothing to tell of it. */
  isAs({ strokes, selected, counts, clashes }: LayeredCycle): boolean {
    return (
      this.selected.every((count, i) => count === selected[i]) &&
      this.counts.length + counts.length + this.clashes.length + clashes.length === 0 &&
      this.strokes.length === strokes.length &&
      this.strokes.every((stroke, i) => isSameStroke(stroke, strokes[i]!))
    );
  }
}

/** Lays one change on a cycle, in place, and returns how many notes it selected or made. */
export function layChange(
  strokes: LayerStroke[],
  change: Change,
  { layerIndex, cycle, cyclePartials, grids }: LayerPlace,
  changeIndex: number,
): number {
  const { displace, subdivision, barPartials } = grids[changeIndex]!;
  return applyChange(strokes, change, {
    layer: layerIndex + 1,
    startPartial: (cycle - 1) * cyclePartials + displace,
    isPickup: cycle === 0,
    subdivision,
    barPartials,
  });
}

/** Whether a change can bring it about that a limb is wanted twice, or grace notes by a foot. */
const movesLimbs = (change: Change): boolean =>
  change.kind === 'pickup' || change.kind === 'add' || givesLimbs(change);

/** The same where nothing was wrong before: a stroke that is added anew clashes in every cycle or in none. */
export const givesLimbs = (change: Change): boolean =>
  change.kind === 'set' && (change.set.limb ?? change.set.grace) !== undefined;

function countLimbs(strokes: readonly LayerStroke[]): LimbCounts {
  const counts: Record<Limb, number> = { R: 0, L: 0, K: 0, F: 0 };
  for (const { limb, position } of strokes) if (position > 0) counts[limb]++;
  return counts;
}

function clashesOf(strokes: readonly LayerStroke[], place: string): readonly PhraseError[] {
  const errors: PhraseError[] = [];
  strokes.forEach((stroke, i) => {
    if (errors.length >= MOST_ERRORS) return;
    const { limb, position } = stroke;
    for (let j = i + 1; strokes[j]?.position === position; j++)
      if (strokes[j]!.limb === limb) {
        const where = positionText(position);
        errors.push(phraseError('LIMB_TWICE', place, { limb: limbName(limb), where }));
      }
    if (stroke.graces.some((grace) => !isHand(limb) || !isHand(grace.limb)))
      errors.push(phraseError('GRACE_ON_FOOT', place, { where: positionText(position) }));
  });
  return errors;
}

const positionText = (position: number): string =>
  position > 0 ? `position ${position}` : `partial ${-position} before the downbeat`;

const isSameStroke = (a: LayerStroke, b: LayerStroke): boolean =>
  isSame(a, b) &&
  a.graces.length === b.graces.length &&
  a.graces.every((grace, i) => isSame(grace, b.graces[i]!));

/** Laid on the same stroke, they differ in what a layer sets. */
const isSame = (a: LayerGrace, b: LayerGrace): boolean =>
  a.limb === b.limb &&
  a.voice === b.voice &&
  a.level === b.level &&
  a.silent === b.silent &&
  a.layers.length === b.layers.length;
