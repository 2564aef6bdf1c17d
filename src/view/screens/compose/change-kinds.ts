import type { Change } from '../../../phrase/model/phrase';

/** The kinds of change to choose from, with what each starts as. */
export const CHANGE_OPTIONS = [
  { value: 'set', name: 'the selected notes' },
  { value: 'accentEvery', name: 'accents at a distance of their own' },
  { value: 'add', name: 'more strokes' },
  { value: 'pickup', name: 'a pickup' },
  { value: 'displace', name: 'where the cycle starts' },
  { value: 'subdivision', name: 'the subdivision' },
  { value: 'swing', name: 'the swing' },
] as const;
export type ChangeKind = (typeof CHANGE_OPTIONS)[number]['value'];

/** A change while it is being made: its selector stands apart, since it may be nothing yet. */
export const BEGINNINGS: Readonly<Record<ChangeKind, Change>> = {
  set: { kind: 'set', where: {}, set: {} },
  accentEvery: { kind: 'accentEvery', accentEvery: 3, from: 1, where: {} },
  add: { kind: 'add', add: [{ position: 1, limb: 'F' }] },
  pickup: { kind: 'pickup', pickup: [{ partialsBefore: 1, limb: 'L' }] },
  displace: { kind: 'displace', displace: 1 },
  subdivision: { kind: 'subdivision', subdivision: 3 },
  swing: { kind: 'swing', swing: '2:1' },
};
