import { checkPlaces } from '../file/check-places';
import { clashes, MAX_LOOKS } from '../file/check-selections';
import { LaidLayers } from '../layers/laid-layers';
import type { Change, Phrase, Setting } from '../model/phrase';
import { checkPhrase } from '../file/parse-phrase';
import { MAX_LAYERS, MAX_SUBDIVISION } from '../model/phrase-file';
import { phraseFile } from '../file/write-phrase';
import { fitsFile } from './fits-file';
import { hasNumbers } from './pin-numbers';

/** A change that keeps every stroke with its limb, so that no limb can be wanted twice by it. */
export type PlainChange =
  | (Extract<Change, { kind: 'set' }> & { readonly set: Omit<Setting, 'limb' | 'grace'> })
  | Extract<Change, { kind: 'displace' | 'subdivision' }>;

/** Cycles that are kept to see whether a change selects something. Chosen, not measured. */
const MOST_PERIOD = 64;

/** Whether a change is one of those, and numbers no strokes. */
export const isPlain = (change: Change): change is PlainChange =>
  change.kind === 'displace' ||
  change.kind === 'subdivision' ||
  (change.kind === 'set' && keepsLimbs(change));

/** Whether a change leaves every stroke with its limb and its grace notes, and numbers no strokes. */
const keepsLimbs = (change: Change): boolean =>
  !('where' in change && hasNumbers(change.where)) &&
  !(change.kind === 'set' && (change.set.limb !== undefined || change.set.grace !== undefined));

/**
 * A phrase put together from the parts of checked ones, with its layers laid on; undefined where checkPhrase would
 * refuse it.
 */
export function checkedLayers(phrase: Phrase): LaidLayers | undefined {
  const { grouping, cycle } = phrase;
  if (!fitsFile(phrase) || checkPlaces(phrase).length > 0) return undefined;
  if (!grouping.slice(0, cycle).some((step) => step.length > 0)) return undefined;
  return checked(new LaidLayers(phrase), isLaidThroughout);
}

/**
 * A checked phrase with one layer more, or undefined where checkPhrase would refuse it. The layers below are not
 * looked at again: what they select does not depend on what comes after them.
 */
export function withCheckedLayer(
  laid: LaidLayers,
  layer: { readonly name: string; readonly changes: readonly PlainChange[] },
): LaidLayers | undefined {
  if (laid.phrase.layers.length >= MAX_LAYERS) return undefined;
  const more = laid.plus(layer);
  return layer.changes.every((change) => isPlaced(change, more))
    ? checked(more, isLaid)
    : undefined;
}

/** The phrase when the check says so; what that cannot know takes the whole check. */
function checked(
  laid: LaidLayers,
  check: (laid: LaidLayers) => boolean | undefined,
): LaidLayers | undefined {
  const { phrase, period } = laid;
  const changes = phrase.layers.reduce((sum, layer) => sum + layer.changes.length, 0);
  const known = period * phrase.cycle * (changes + 1) > MAX_LOOKS ? undefined : check(laid);
  return (known ?? checkPhrase(phraseFile(phrase)).ok) ? laid : undefined;
}

/** Whether each layer can be laid on those below it; undefined where that takes the whole check to know. */
function isLaidThroughout(laid: LaidLayers): boolean | undefined {
  const known = laid.below ? isLaidThroughout(laid.below) : true;
  return known && isLaid(laid);
}

/** Whether the last layer selects what it has to, and wants no limb twice. */
function isLaid(laid: LaidLayers): boolean | undefined {
  if (laid.period > MOST_PERIOD) return undefined;
  const { changes } = laid.phrase.layers.at(-1)!;
  if (!changes.every(keepsLimbs)) return undefined;
  return changes.every((change, i) => {
    if (change.kind === 'pickup') return clashes(laid.strokes(0), '').length === 0;
    if (change.kind === 'add') return clashes(laid.strokes(1), '').length === 0;
    return !('where' in change) || selectsAny(laid, i);
  });
}

function selectsAny(laid: LaidLayers, changeIndex: number): boolean {
  for (let cycle = 1; cycle <= laid.period; cycle++)
    if (laid.selected(changeIndex, cycle) > 0) return true;
  return laid.selected(changeIndex, 0) > 0;
}

/** Whether a layer's change finds its place in the grid that the layer leaves. */
function isPlaced(change: PlainChange, { phrase, grid }: LaidLayers): boolean {
  switch (change.kind) {
    case 'set':
      return true;
    case 'displace':
      return Math.abs(grid.displace) < phrase.cycle;
    case 'subdivision':
      return isSubdivision(change.subdivision) && longestPickup(phrase) <= grid.barPartials;
  }
}

const isSubdivision = (value: number): boolean =>
  Number.isInteger(value) && value >= 1 && value <= MAX_SUBDIVISION;

const longestPickup = ({ layers }: Phrase): number =>
  Math.max(
    0,
    ...layers.flatMap(({ changes }) =>
      changes.flatMap((change) =>
        change.kind === 'pickup' ? change.pickup.map((stroke) => stroke.partialsBefore) : [],
      ),
    ),
  );
