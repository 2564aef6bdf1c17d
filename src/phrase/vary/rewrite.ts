import type { Limb } from '../limb';
import type { Phrase } from '../phrase';
import type { ChangeFile, EveryFile, LayerFile, PhraseFile, WhereFile } from '../phrase-file';
import { phraseFile } from '../write-phrase';

/** What becomes of the places and limbs that changes name; without a key they stay. */
export interface Rewriting {
  /** Where a position goes to: to none, one or several. */
  readonly positions?: (position: number) => readonly number[];
  readonly limb?: (limb: Limb) => Limb;
  readonly every?: (every: EveryFile) => EveryFile;
}

/**
 * A phrase's file with the positions and limbs of its changes rewritten; what selects only positions that went
 * nowhere goes with them.
 */
export function rewrite(phrase: Phrase, rewriting: Rewriting): PhraseFile {
  const file = phraseFile(phrase);
  return { ...file, layers: file.layers.map((layer) => rewriteLayer(layer, rewriting)) };
}

/** The same for one layer. */
export const rewriteLayer = (
  { changes = [], ...layer }: LayerFile,
  rewriting: Rewriting,
): LayerFile & { readonly changes: ChangeFile[] } => ({
  ...layer,
  changes: changes.flatMap((change) => rewriteChange(change, rewriting)),
});

const same = <T>(unchanged: T): T => unchanged;
const inPlace = (position: number): readonly number[] => [position];

function rewriteChange(change: ChangeFile, rewriting: Rewriting): ChangeFile[] {
  const { positions = inPlace, limb = same, every = same } = rewriting;
  if ('add' in change) {
    const add = change.add.flatMap((stroke) =>
      positions(stroke.position).map((position) => ({
        ...stroke,
        limb: limb(stroke.limb),
        position,
      })),
    );
    return add.length > 0 ? [{ add }] : [];
  }
  if ('pickup' in change)
    return [{ pickup: change.pickup.map((stroke) => ({ ...stroke, limb: limb(stroke.limb) })) }];
  if (!('where' in change)) return [change];
  const where = rewriteWhere(change.where, { positions, limb, every });
  if (!where) return [];
  if (!('set' in change)) return [{ ...change, where }];
  const { set } = change;
  return [{ where, set: { ...set, ...(set.limb && { limb: limb(set.limb) }) } }];
}

/** Undefined when nothing can be selected any more. */
function rewriteWhere(where: WhereFile, rewriting: Required<Rewriting>): WhereFile | undefined {
  const { positions, limb, every, not, any, ...rest } = where;
  const moved =
    rewriting.positions === inPlace
      ? positions
      : positions?.flatMap(rewriting.positions).sort((a, b) => a - b);
  const members = any?.flatMap((member) => rewriteWhere(member, rewriting) ?? []);
  if (moved?.length === 0 || members?.length === 0) return undefined;
  const excluded = not && rewriteWhere(not, rewriting);
  return {
    ...rest,
    ...(limb && { limb: rewriting.limb(limb) }),
    ...(moved && { positions: [...moved] }),
    ...(every && { every: rewriting.every(every) }),
    ...(excluded && { not: excluded }),
    ...(members && { any: members }),
  };
}
