import type { DraftCheck } from '../check/draft-check';
import type { LayerStack } from '../layers/layer-stack';
import { soundsSame } from '../layers/same-sound';
import { LIMBS, type Limb } from '../model/limb';
import type { AddedStroke, Change, Setting } from '../model/phrase';
import type { PhraseDraft } from '../model/phrase-draft';
import { changesOf, editChanges } from './edit-changes';

/** A main note of the cycle, as the layer that is edited left it. */
export interface NotePosition {
  /** 1-based partial of the cycle. */
  readonly position: number;
  readonly limb: Limb;
}

/** One thing that a note is given. */
export type OneSetting = {
  [K in keyof Setting]-?: Record<K, NonNullable<Setting[K]>>;
}[keyof Setting];

/**
 * Gives one note of the cycle a voice, level, limb, silence or grace notes as a change of a layer (1-based). Of all
 * ways to write that into the layer's changes the shortest is taken: joined to a change that gives the same to
 * other positions, taken out of one where the note goes back to what it was, or as a change of its own. Other
 * layers stay as they are; so does everything else that sounds.
 */
export const setNote = (
  work: DraftCheck,
  layer: number,
  { position, limb }: NotePosition,
  set: OneSetting,
): PhraseDraft =>
  edit(work, layer, position, { kind: 'set', where: { limb, positions: [position] }, set });

/** Lets a note of the cycle rest; a stroke that the layer added goes. */
export const removeNote = (work: DraftCheck, layer: number, place: NotePosition): PhraseDraft =>
  setNote(work, layer, place, { silent: true });

/** One more stroke in the cycle as a change of a layer (1-based); one that is silent sounds again. */
export function addNote(work: DraftCheck, layer: number, place: NotePosition): PhraseDraft {
  const { position, limb } = place;
  const isSilent = silentLimbs(work.upTo(layer), position).includes(limb);
  return isSilent
    ? setNote(work, layer, place, { silent: false })
    : edit(work, layer, position, { kind: 'add', add: [{ position, limb }] });
}

/** Limbs whose stroke there is silent: it sounds again rather than another coming. */
export const silentLimbs = (stack: LayerStack | undefined, position: number): readonly Limb[] =>
  (stack?.strokes(1) ?? [])
    .filter((stroke) => stroke.position === position && stroke.silent)
    .map(({ limb }) => limb);

/**
 * The layer's changes rewritten so that they sound as if `wanted` came after them, in as few words as can be found;
 * with `wanted` as it is where that is no phrase, so that what is wrong is told.
 */
function edit(work: DraftCheck, layer: number, position: number, wanted: Change): PhraseDraft {
  const changes = changesOf(work.draft, layer);
  const plain = editChanges(work.draft, layer, [...changes, wanted]);
  const target = work.with(plain).upTo(layer);
  if (!target) return plain;
  const ways = waysToWrite(changes, position, wanted)
    .map((found) => ({ found, words: words(found) }))
    .sort((a, b) => a.words - b.words);
  for (const { found } of ways) {
    const tried = editChanges(work.draft, layer, found);
    const stack = work.with(tried).upTo(layer);
    if (stack && soundsSame(stack, target)) return tried;
  }
  return plain;
}

function waysToWrite(
  changes: readonly Change[],
  position: number,
  wanted: Change,
): (readonly Change[])[] {
  return withoutPlace(changes, position).flatMap((base) => [
    base,
    ...base
      .flatMap((change, i) => {
        const joined = joinedTo(change, position, wanted);
        return joined ? [base.with(i, joined)] : [];
      })
      .reverse(),
    ...alone(position, wanted).map((change) => [...base, change]),
  ]);
}

/** The changes as they are, and with what they say about one position taken out of one of them, or of all alike. */
function withoutPlace(changes: readonly Change[], position: number): Change[][] {
  const cut = changes.map((change) => placeTakenOut(change, position));
  const each = cut.flatMap((found, i) => (found ? [changes.toSpliced(i, 1, ...found)] : []));
  const all = changes.flatMap((change, i) => cut[i] ?? [change]);
  return [[...changes], ...each, ...(each.length > 1 ? [all] : [])];
}

/** Undefined when the change says nothing about the position by name; empty when it says nothing else. */
function placeTakenOut(change: Change, position: number): Change[] | undefined {
  if (change.kind === 'add') {
    const add = change.add.filter((stroke) => stroke.position !== position);
    if (add.length === change.add.length) return undefined;
    return add.length > 0 ? [{ ...change, add }] : [];
  }
  if (!namesPlaces(change) || !change.where.positions.includes(position)) return undefined;
  const positions = change.where.positions.filter((place) => place !== position);
  return positions.length > 0 ? [{ ...change, where: { ...change.where, positions } }] : [];
}

type SetChange = Extract<Change, { kind: 'set' }>;
type PlaceChange = SetChange & { readonly where: { readonly positions: readonly number[] } };

/** A change that sets one thing and names the positions, or a limb's. */
const namesPlaces = (change: Change): change is PlaceChange =>
  change.kind === 'set' &&
  Object.keys(change.set).length === 1 &&
  change.where.positions !== undefined &&
  Object.keys(change.where).every((key) => key === 'positions' || key === 'limb');

/** A change that does what is wanted along with what it did, if it can. */
function joinedTo(change: Change, position: number, wanted: Change): Change | undefined {
  if (change.kind === 'add') return { ...change, add: addedTo(change.add, position, wanted) };
  if (wanted.kind !== 'set' || !namesPlaces(change)) return undefined;
  if (JSON.stringify(change.set) !== JSON.stringify(wanted.set)) return undefined;
  const positions = [...new Set([...change.where.positions, position])].sort((a, b) => a - b);
  return { ...change, where: { ...change.where, positions } };
}

function addedTo(add: readonly AddedStroke[], position: number, wanted: Change): AddedStroke[] {
  if (wanted.kind === 'add') return [...add, ...wanted.add].sort((a, b) => a.position - b.position);
  if (wanted.kind !== 'set') return [...add];
  const { voice, level, limb } = wanted.set;
  return add.map((stroke) =>
    stroke.position === position
      ? {
          ...stroke,
          ...(limb !== undefined && { limb }),
          ...(voice !== undefined && { voice }),
          ...(level !== undefined && { level }),
        }
      : stroke,
  );
}

/** What is wanted as a change of its own, by position alone if that will do. */
function alone(position: number, wanted: Change): Change[] {
  if (wanted.kind !== 'set') return [wanted];
  const positions = [position];
  return [{ positions }, ...LIMBS.map((limb) => ({ limb, positions }))].map((where) => ({
    kind: 'set',
    where,
    set: wanted.set,
  }));
}

/** How much there is to read: keys and values. */
function words(value: unknown): number {
  if (typeof value !== 'object' || value === null) return 1;
  if (Array.isArray(value)) return value.reduce((sum: number, item) => sum + words(item), 0);
  return Object.values(value).reduce((sum: number, item) => sum + 1 + words(item), 0);
}
