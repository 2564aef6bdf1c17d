import { changedNotes, noteKey } from '../../../../phrase/edit/cycle-strokes';
import { addChange } from '../../../../phrase/edit/edit-changes';
import { addLayer } from '../../../../phrase/edit/edit-layers';
import type { Change, Phrase } from '../../../../phrase/model/phrase';
import type { Composition } from '../../../../practice/compose/composition.svelte';

/** A pickup that is being made, on the score line ahead of what is there, or why it does not suit that. */
export interface PickupPreview {
  readonly line:
    | { readonly phrase: Phrase; readonly layer: number; readonly changed: ReadonlySet<string> }
    | undefined;
  readonly refusal: string | undefined;
}

/** Undefined where the next change is no pickup. */
export function pickupPreview(
  { draft, layer, check }: Pick<Composition, 'draft' | 'layer' | 'check'>,
  next: Change,
): PickupPreview | undefined {
  if (next.kind !== 'pickup') return undefined;
  const made = check.with(addChange(addLayer(draft, layer), layer + 1, next));
  const phrase = made.upTo(layer + 1)?.phrase;
  const added = next.pickup.map(({ partialsBefore, limb }) =>
    noteKey({ position: -partialsBefore, limb }),
  );
  const at = layer + 1;
  return {
    line: phrase && {
      phrase,
      layer: at,
      changed: new Set([...changedNotes(phrase, at), ...added]),
    },
    refusal: made.errors.find(({ place }) => place.startsWith(`layers[${layer}]`))?.message,
  };
}
