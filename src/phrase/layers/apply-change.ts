import { remainder } from '../../time/whole';
import {
  layerGrace,
  layerStroke,
  startingVoice,
  touch,
  type LayerGrace,
  type LayerStroke,
} from './layer-stroke';
import { freeHand, type Limb } from '../model/limb';
import { noteTest, type NotePlace } from './matches-selector';
import type { Change, Grace, Setting, Selector } from '../model/phrase';

/** What a change needs to know about the cycle it is applied to. */
export interface CyclePlace {
  /** 1-based number of the layer the change belongs to. */
  readonly layer: number;
  /** Partials from bar 1 beat 1 to the cycle's start; the pickup counts from the downbeat backwards. */
  readonly startPartial: number;
  readonly isPickup: boolean;
  readonly subdivision: number;
  readonly barPartials: number;
}

/**
 * Lays one change on one cycle (or on the pickup), in place, and returns how many notes it selected
 * or made there. Changes of the grid (displace, subdivision, swing) only mark the notes they move.
 */
export function applyChange(strokes: LayerStroke[], change: Change, place: CyclePlace): number {
  switch (change.kind) {
    case 'set':
      return select(strokes, change.where, place, (main, grace) => {
        if (grace) setGraceNote(grace, change.set, place.layer);
        else setMainNote(main, change.set, place.layer);
      });
    case 'accentEvery':
      if (place.isPickup) return 0;
      return select(strokes, change.where, place, (main, grace, partial) => {
        if (remainder(partial - (change.from - 1), change.accentEvery) !== 0) return false;
        put(grace ?? main, 'level', 'accent', place.layer);
        return true;
      });
    case 'pickup':
      if (!place.isPickup) return 0;
      for (const stroke of change.pickup)
        strokes.push(layerStroke(-stroke.partialsBefore, stroke, place.layer));
      strokes.sort(byPosition);
      return change.pickup.length;
    case 'add':
      if (place.isPickup) return 0;
      for (const stroke of change.add)
        strokes.push(layerStroke(stroke.position, stroke, place.layer));
      strokes.sort(byPosition);
      return change.add.length;
    case 'displace':
      if (place.isPickup) return 0;
      return markAll(strokes, place.layer);
    case 'subdivision':
      return change.subdivision === place.subdivision ? 0 : markAll(strokes, place.layer);
    case 'swing':
      return strokes.length;
  }
}

const byPosition = (a: LayerStroke, b: LayerStroke): number => a.position - b.position;

function markAll(strokes: readonly LayerStroke[], layer: number): number {
  for (const stroke of strokes) {
    touch(stroke, layer);
    for (const grace of stroke.graces) touch(grace, layer);
  }
  return strokes.length;
}

/** Calls `act` on every selected note, a stroke's chosen before any of them is changed; `act` may decline with false. */
export function select(
  strokes: readonly LayerStroke[],
  where: Selector,
  place: CyclePlace,
  act: (main: LayerStroke, grace: LayerGrace | undefined, partial: number) => boolean | void,
): number {
  const counts: Record<Limb, number> = { R: 0, L: 0, K: 0, F: 0 };
  const { isPickup, startPartial, barPartials, subdivision } = place;
  const at: { -readonly [K in keyof NotePlace]: NotePlace[K] } = {
    nth: 0,
    partial: undefined,
    partialOfBar: 0,
  };
  const isSelected = noteTest(where, subdivision);
  let selected = 0;
  for (const main of strokes) {
    const partial = isPickup ? main.position : startPartial + main.position - 1;
    at.nth = isPickup ? 0 : ++counts[main.limb];
    at.partial = isPickup ? undefined : partial;
    at.partialOfBar = remainder(partial, barPartials);
    const isMain = isSelected(main, undefined, at);
    if (main.graces.length > 0)
      for (const grace of main.graces.filter((grace) => isSelected(main, grace, at)))
        if (act(main, grace, partial) !== false) selected++;
    if (isMain && act(main, undefined, partial) !== false) selected++;
  }
  return selected;
}

function put<K extends 'voice' | 'level' | 'limb' | 'silent'>(
  draft: LayerGrace,
  key: K,
  value: LayerGrace[K] | undefined,
  layer: number,
): void {
  if (value === undefined || draft[key] === value) return;
  draft[key] = value;
  touch(draft, layer);
}

/** Another limb takes the voice along unless it is still the one its limb started on. */
function putLimb(draft: LayerGrace, limb: Limb | undefined, layer: number): void {
  if (limb === undefined || limb === draft.limb) return;
  if (draft.voice === startingVoice(draft.limb)) draft.voice = startingVoice(limb);
  put(draft, 'limb', limb, layer);
}

function setGraceNote(grace: LayerGrace, set: Setting, layer: number): void {
  putLimb(grace, set.limb, layer);
  put(grace, 'voice', set.voice, layer);
  put(grace, 'level', set.level, layer);
  put(grace, 'silent', set.silent, layer);
}

/** Grace notes go along with the main note's voice and silence, not with its level and limb. */
function setMainNote(main: LayerStroke, set: Setting, layer: number): void {
  setGraceNote(main, set, layer);
  for (const grace of main.graces) put(grace, 'voice', set.voice, layer);
  if (set.grace !== undefined) setGraces(main, set.grace, layer);
}

const GRACE_COUNTS: Readonly<Record<Grace, number>> = { none: 0, flam: 1, drag: 2 };

/** New grace notes are played by the other hand on the main note's voice. */
function setGraces(main: LayerStroke, grace: Grace, layer: number): void {
  const count = GRACE_COUNTS[grace];
  const hand = freeHand(main.limb);
  if (main.graces.length === count && main.graces.every(({ limb }) => limb === hand)) return;
  main.graces = Array.from({ length: count }, () => layerGrace(hand, main.voice, layer));
  touch(main, layer);
}
