import { buildWhere } from '../../../phrase/file/parse-phrase';
import type { Where } from '../../../phrase/model/phrase';
import type { WhereFile } from '../../../phrase/model/phrase-file';
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
