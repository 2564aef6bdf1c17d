import { MAX_LOOKS } from '../check-selections';
import type { LaidLayers } from '../laid-layers';
import type { Change, Setting } from '../phrase';
import { MAX_LAYERS, MAX_SUBDIVISION } from '../phrase-file';
import { phraseFile } from '../write-phrase';
import { checkedFile } from './checked-file';

/** A change that keeps every stroke with its limb, so that no limb can be wanted twice by it. */
export type PlainChange =
  | (Extract<Change, { kind: 'set' }> & { readonly set: Omit<Setting, 'limb' | 'grace'> })
  | Extract<Change, { kind: 'displace' | 'subdivision' }>;

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
  const { grid, period } = more.whole;
  const changes = phrase.layers.reduce((sum, layer) => sum + layer.changes.length, 0);
  if (period * phrase.cycle * (changes + 1) > MAX_LOOKS) return undefined;
  if (phrase.layers.length > MAX_LAYERS) return false;
  let selects = true;
  const added = phrase.layers.at(-1)!.changes;
  for (let i = 0; i < added.length; i++) {
    const change = added[i]!;
    if (change.kind === 'displace' && Math.abs(grid.displace) >= phrase.cycle) return false;
    if (change.kind === 'subdivision' && !isSubdivision(change.subdivision)) return false;
    if (change.kind === 'subdivision' && longestPickup(more) > grid.barPartials) return false;
    if (change.kind === 'set') selects &&= more.selected(i, 1) > 0 || more.selected(i, 0) > 0;
  }
  return selects || (period === 1 ? false : undefined);
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
