import type { DraftCheck } from '../check/draft-check';
import { soundsSame } from '../layers/same-sound';
import type { Change, Setting } from '../model/phrase';
import type { PhraseDraft } from '../model/phrase-draft';
import { changeName } from './change-name';
import { changesOf, editChanges } from './edit-changes';

/**
 * A layer (1-based) as several, each with one of its changes and a name that says what it does; a layer whose one
 * change sets several things, as one for each of them, in the first order that sounds the same. The same draft when
 * the layer is one idea already.
 */
export function splitLayer(work: DraftCheck, layer: number): PhraseDraft {
  const { draft } = work;
  const whole = draft.layers[layer - 1];
  const changes = changesOf(draft, layer);
  const parts = changes.length === 1 ? settingsApart(work, layer, changes[0]!) : changes;
  if (!whole || parts.length < 2) return draft;
  const names = parts.map(changeName);
  const layers = parts.map((change, i) => {
    const same = names.filter((name) => name === names[i]);
    const before = names.slice(0, i + 1).filter((name) => name === names[i]);
    const name = same.length > 1 ? `${names[i]} ${before.length}` : names[i]!;
    return { ...whole, name, changes: [change] };
  });
  return { ...draft, layers: draft.layers.toSpliced(layer - 1, 1, ...layers) };
}

function settingsApart(work: DraftCheck, layer: number, change: Change): Change[] {
  if (change.kind !== 'set') return [change];
  const keys = Object.keys(change.set) as (keyof Setting)[];
  const before = work.upTo(layer);
  if (keys.length < 2 || !before) return [change];
  for (const order of orders(keys)) {
    const parts = order.map((key) => ({ ...change, set: { [key]: change.set[key] } }));
    const after = work.with(editChanges(work.draft, layer, parts)).upTo(layer);
    if (after && soundsSame(after, before)) return parts;
  }
  return [change];
}

function orders<T>(items: readonly T[]): T[][] {
  if (items.length < 2) return [[...items]];
  return items.flatMap((first, i) =>
    orders(items.toSpliced(i, 1)).map((others) => [first, ...others]),
  );
}
