import type { Change, Selector } from '../../../../phrase/model/phrase';

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

/**
 * The change on the notes that are selected. Accents at a distance need no selection; other kinds have none.
 *
 * @example withWhere({ kind: 'accentEvery', accentEvery: 3, from: 1, where: {} }, { limb: 'R' }).where // => { limb: 'R' }
 */
export function withWhere(change: Change, where: Selector | undefined): Change {
  return 'where' in change ? { ...change, where: where ?? {} } : change;
}

/**
 * What a change still lacks, as a sentence; undefined when it can be added.
 *
 * @example whatIsMissing({ kind: 'displace', displace: 1 }, undefined) // => undefined
 */
export function whatIsMissing(change: Change, where: Selector | undefined): string | undefined {
  if (change.kind !== 'set') return undefined;
  if (!where) return 'Select the notes first, above or on the score line.';
  if (Object.keys(change.set).length === 0) return 'Say what the selected notes get.';
  return undefined;
}

/**
 * A sentence where notes are selected that the change has no use for.
 *
 * @example whatIsUnused({ kind: 'displace', displace: 1 }, undefined) // => undefined
 */
export const whatIsUnused = (change: Change, where: Selector | undefined): string | undefined =>
  where && !('where' in change)
    ? 'This kind of change does not ask which notes are selected.'
    : undefined;
