import { layOn } from '../layers/lay-on';
import type { Limb } from '../model/limb';
import { LIMBS } from '../model/limb';
import type { AddedFile, ChangeFile, PhraseFile, SettingFile } from '../model/phrase-file';
import { changesOf, editChanges } from './edit-changes';
import { phraseUpTo } from './phrase-up-to';
import { soundOf } from './sound-of';

/** A main note of the cycle, as the layer that is edited left it. */
export interface NotePlace {
  /** 1-based partial of the cycle. */
  readonly position: number;
  readonly limb: Limb;
}

/** One thing that a note is given. */
export type OneSetting = {
  [K in keyof SettingFile]-?: Record<K, NonNullable<SettingFile[K]>>;
}[keyof SettingFile];

/**
 * Gives one note of the cycle a voice, level, limb, silence or grace notes as a change of a layer (1-based). Of all
 * ways to write that into the layer's changes the shortest is taken: joined to a change that gives the same to
 * other positions, taken out of one where the note goes back to what it was, or as a change of its own. Other
 * layers stay as they are; so does everything else that sounds.
 */
export const setNote = (
  file: PhraseFile,
  layer: number,
  { position, limb }: NotePlace,
  set: OneSetting,
): PhraseFile => edit(file, layer, position, { where: { limb, positions: [position] }, set });

/** Lets a note of the cycle rest; a stroke that the layer added goes. */
export const removeNote = (file: PhraseFile, layer: number, place: NotePlace): PhraseFile =>
  setNote(file, layer, place, { silent: true });

/** One more stroke in the cycle as a change of a layer (1-based); one that is silent sounds again. */
export function addNote(file: PhraseFile, layer: number, place: NotePlace): PhraseFile {
  const phrase = phraseUpTo(file, layer);
  const { position, limb } = place;
  const silent =
    phrase &&
    layOn(phrase, layer, 1).some(
      (stroke) => stroke.position === position && stroke.limb === limb && stroke.silent,
    );
  return silent
    ? setNote(file, layer, place, { silent: false })
    : edit(file, layer, position, { add: [{ position, limb }] });
}

/**
 * The layer's changes rewritten so that they sound as if `wanted` came after them, in as few words as can be found;
 * with `wanted` as it is where that is no phrase, so that what is wrong is told.
 */
function edit(file: PhraseFile, layer: number, position: number, wanted: ChangeFile): PhraseFile {
  const changes = changesOf(file, layer);
  const plain = editChanges(file, layer, [...changes, wanted]);
  const target = phraseUpTo(plain, layer);
  if (!target) return plain;
  const sound = soundOf(target);
  const ways = waysToWrite(changes, position, wanted)
    .map((found) => ({ found, words: words(found) }))
    .sort((a, b) => a.words - b.words);
  for (const { found } of ways) {
    const tried = editChanges(file, layer, found);
    const phrase = phraseUpTo(tried, layer);
    if (phrase && soundOf(phrase) === sound) return tried;
  }
  return plain;
}

function waysToWrite(
  changes: readonly ChangeFile[],
  position: number,
  wanted: ChangeFile,
): (readonly ChangeFile[])[] {
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
function withoutPlace(changes: readonly ChangeFile[], position: number): ChangeFile[][] {
  const cut = changes.map((change) => placeTakenOut(change, position));
  const each = cut.flatMap((found, i) => (found ? [changes.toSpliced(i, 1, ...found)] : []));
  const all = changes.flatMap((change, i) => cut[i] ?? [change]);
  return [[...changes], ...each, ...(each.length > 1 ? [all] : [])];
}

/** Undefined when the change says nothing about the position by name; empty when it says nothing else. */
function placeTakenOut(change: ChangeFile, position: number): ChangeFile[] | undefined {
  if ('add' in change) {
    const add = change.add.filter((stroke) => stroke.position !== position);
    if (add.length === change.add.length) return undefined;
    return add.length > 0 ? [{ add }] : [];
  }
  if (!namesPlaces(change) || !change.where.positions.includes(position)) return undefined;
  const positions = change.where.positions.filter((place) => place !== position);
  return positions.length > 0 ? [{ ...change, where: { ...change.where, positions } }] : [];
}

type PlaceChange = Extract<ChangeFile, { set: SettingFile }> & { where: { positions: number[] } };

/** A change that sets one thing and names the positions, or a limb's. */
const namesPlaces = (change: ChangeFile): change is PlaceChange =>
  'set' in change &&
  Object.keys(change.set).length === 1 &&
  change.where.positions !== undefined &&
  Object.keys(change.where).every((key) => key === 'positions' || key === 'limb');

/** A change that does what is wanted along with what it did, if it can. */
function joinedTo(
  change: ChangeFile,
  position: number,
  wanted: ChangeFile,
): ChangeFile | undefined {
  if ('add' in change) return { add: addedTo(change.add, position, wanted) };
  if (!('set' in wanted) || !namesPlaces(change)) return undefined;
  if (JSON.stringify(change.set) !== JSON.stringify(wanted.set)) return undefined;
  const positions = [...new Set([...change.where.positions, position])].sort((a, b) => a - b);
  return { ...change, where: { ...change.where, positions } };
}

function addedTo(add: readonly AddedFile[], position: number, wanted: ChangeFile): AddedFile[] {
  if ('add' in wanted) return [...add, ...wanted.add].sort((a, b) => a.position - b.position);
  if (!('set' in wanted)) return [...add];
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
function alone(position: number, wanted: ChangeFile): ChangeFile[] {
  if (!('set' in wanted)) return [wanted];
  const positions = [position];
  return [{ positions }, ...LIMBS.map((limb) => ({ limb, positions }))].map((where) => ({
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
