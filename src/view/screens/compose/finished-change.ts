import type { ChangeFile, SelectorFile } from '../../../phrase/model/phrase-file';

/**
 * The change on the notes that are selected. Accents at a distance need no selection; other kinds have none.
 *
 * @example withWhere({ accentEvery: 3 }, { limb: 'R' }) // => { accentEvery: 3, where: { limb: 'R' } }
 */
export function withWhere(change: ChangeFile, where: SelectorFile | undefined): ChangeFile {
  if ('set' in change) return { where: where ?? {}, set: change.set };
  return 'accentEvery' in change && where ? { ...change, where } : change;
}

/**
 * What a change still lacks, as a sentence; undefined when it can be added.
 *
 * @example whatIsMissing({ displace: 1 }, undefined) // => undefined
 */
export function whatIsMissing(
  change: ChangeFile,
  where: SelectorFile | undefined,
): string | undefined {
  if (!('set' in change)) return undefined;
  if (!where) return 'Select the notes first, above or on the score line.';
  if (Object.keys(change.set).length === 0) return 'Say what the selected notes get.';
  return undefined;
}

/**
 * A sentence where notes are selected that the change has no use for.
 *
 * @example whatIsUnused({ displace: 1 }, undefined) // => undefined
 */
export const whatIsUnused = (
  change: ChangeFile,
  where: SelectorFile | undefined,
): string | undefined =>
  where && !('set' in change) && !('accentEvery' in change)
    ? 'This kind of change does not ask which notes are selected.'
    : undefined;
