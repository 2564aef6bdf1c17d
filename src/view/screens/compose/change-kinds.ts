import type { ChangeFile } from '../../../phrase/model/phrase-file';

/** The kinds of change to choose from, with what each starts as. */
export const CHANGE_KINDS = [
  { value: 'set', name: 'the selected notes' },
  { value: 'accentEvery', name: 'accents at a distance of their own' },
  { value: 'add', name: 'more strokes' },
  { value: 'pickup', name: 'a pickup' },
  { value: 'displace', name: 'where the cycle starts' },
  { value: 'subdivision', name: 'the subdivision' },
  { value: 'swing', name: 'the swing' },
] as const;
export type ChangeKind = (typeof CHANGE_KINDS)[number]['value'];

/** A change while it is being made: its where stands apart, since it may be nothing yet. */
export const BEGINNINGS: Readonly<Record<ChangeKind, ChangeFile>> = {
  set: { where: {}, set: {} },
  accentEvery: { accentEvery: 3 },
  add: { add: [{ position: 1, limb: 'F' }] },
  pickup: { pickup: [{ partialsBefore: 1, limb: 'L' }] },
  displace: { displace: 1 },
  subdivision: { subdivision: 3 },
  swing: { swing: '2:1' },
};

/** @example kindOf({ displace: 2 }) // => 'displace' */
export const kindOf = (change: ChangeFile): ChangeKind =>
  CHANGE_KINDS.find(({ value }) => value in change)!.value;
