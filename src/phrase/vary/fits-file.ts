import { someSelector } from '../layers/matches-selector';
import type { Change, Phrase, Selector } from '../model/phrase';
import {
  MAX_CYCLE,
  MAX_GROUPING,
  MAX_LAYERS,
  MAX_PATTERN,
  MAX_SUBDIVISION,
} from '../model/phrase-file';

/** Whether a phrase put together from the parts of checked ones is no larger than what its file can hold. */
export const fitsFile = ({ subdivision, cycle, groupingText, layers }: Phrase): boolean =>
  subdivision <= MAX_SUBDIVISION &&
  Number.isInteger(cycle) &&
  cycle >= 1 &&
  cycle <= MAX_CYCLE &&
  groupingText.length <= MAX_GROUPING &&
  layers.length <= MAX_LAYERS &&
  layers.every(({ changes, muted = [] }) => changes.every(isFitting) && muted.every(isFitting));

function isFitting(change: Change): boolean {
  switch (change.kind) {
    case 'subdivision':
      return change.subdivision <= MAX_SUBDIVISION;
    case 'displace':
      return Math.abs(change.displace) < MAX_CYCLE;
    case 'accentEvery':
      return change.accentEvery <= MAX_CYCLE && isSelectorFitting(change.where);
    case 'set':
      return isSelectorFitting(change.where);
    case 'add':
      return change.add.length <= MAX_CYCLE;
    case 'pickup':
      return change.pickup.every(({ partialsBefore }) => partialsBefore <= MAX_CYCLE);
    case 'swing':
      return true;
  }
}

const isSelectorFitting = (where: Selector): boolean =>
  !someSelector(where, ({ every }) => every !== undefined && every.partials > MAX_PATTERN);
