import { buildSelector } from '../../../phrase/file/parse-phrase';
import type { Selector } from '../../../phrase/model/phrase';
import type { SelectorFile } from '../../../phrase/model/phrase-file';
import { parseBeats } from '../../../time/beats';

/**
 * A selector from its file, or undefined while one of its beats is none.
 *
 * @example readSelector({ beats: ['two'] }) // => undefined
 */
export const readSelector = (where: SelectorFile): Selector | undefined =>
  hasBeats(where) ? buildSelector(where) : undefined;

const hasBeats = ({ beats = [], not, any = [] }: SelectorFile): boolean =>
  beats.every((beat) => parseBeats(beat) !== undefined) &&
  (!not || hasBeats(not)) &&
  any.every(hasBeats);
