import { buildWhere } from '../../../phrase/parse-phrase';
import type { Where } from '../../../phrase/phrase';
import type { WhereFile } from '../../../phrase/phrase-file';
import { parseBeats } from '../../../time/beats';

/**
 * A where from its file, or undefined while one of its beats is none.
 *
 * @example readWhere({ beats: ['two'] }) // => undefined
 */
export const readWhere = (where: WhereFile): Where | undefined =>
  hasBeats(where) ? buildWhere(where) : undefined;

const hasBeats = ({ beats = [], not, any = [] }: WhereFile): boolean =>
  beats.every((beat) => parseBeats(beat) !== undefined) &&
  (!not || hasBeats(not)) &&
  any.every(hasBeats);
