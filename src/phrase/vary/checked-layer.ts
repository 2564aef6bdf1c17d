import { MAX_LOOKS } from '../check-selections';
import type { LaidLayers } from '../laid-layers';
import type { Change, Setting } from '../phrase';
import { MAX_LAYERS, MAX_SUBDIVISION } from '../phrase-file';
import { phraseFile } from '../write-phrase';
import { checkedFile } from './checked-file';
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
  (change.kind === 'set' &&
    change.set.limb === undefined &&
    change.set.grace === undefined &&
    !hasNumbers(change.where));

/**
 * A checked phrase with one layer more, or undefined where checkPhrase would refuse it. The layers below are not
 * looked at again: what they select does not depend on what comes after them.
 */
export function withCheckedLayer(
  laid: LaidLayers,
  layer: { readonly name: string; readonly changes: readonly PlainChange[] },
): LaidLayers | undefined {
  const more = laid.plus(layer);
  const known = verdict(more);
  if (known === false) return undefined;
  return known || checkedFile(phraseFile(more.phrase)) ? more : undefined;
}

/** Whether the last layer can be laid on the others; undefined where that takes the whole check to know. */
function verdict(more: LaidLayers): boolean | undefined {
  const { phrase } = more;
  const { grid, period } = more;
  const changes = phrase.layers.reduce((sum, layer) => sum + layer.changes.length, 0);
  if (period * phrase.cycle * (changes + 1) > MAX_LOOKS) return undefined;
  if (phrase.layers.length > MAX_LAYERS) return false;
  if (period > MOST_PERIOD) return undefined;
  const added = phrase.layers.at(-1)!.changes;
  for (let i = 0; i < added.length; i++) {
    const change = added[i]!;
    if (change.kind === 'displace' && Math.abs(grid.displace) >= phrase.cycle) return false;
    if (change.kind === 'subdivision' && !isSubdivision(change.subdivision)) return false;
    if (change.kind === 'subdivision' && longestPickup(more) > grid.barPartials) return false;
    if (change.kind === 'set' && !selectsAny(more, i, period)) return false;
  }
  return true;
}

function selectsAny(more: LaidLayers, changeIndex: number, period: number): boolean {
  for (let cycle = 1; cycle <= period; cycle++)
    if (more.selected(changeIndex, cycle) > 0) return true;
  return more.selected(changeIndex, 0) > 0;
}

const isSubdivision = (value: number): boolean =>
  Number.isInteger(value) && value >= 1 && value <= MAX_SUBDIVISION;

const longestPickup = ({ phrase }: LaidLayers): number =>
  Math.max(
    0,
    ...phrase.layers.flatMap(({ changes }) =>
      changes.flatMap((change) =>
        change.kind === 'pickup' ? change.pickup.map((stroke) => stroke.partialsBefore) : [],
      ),
    ),
  );
