import type { PatternError } from '../../phrase/decompose/target-pattern';
import { bad, type Result } from '../../time/result';

/** Why a MusicXML file is not read at all. */
export interface MusicXmlError {
  readonly code:
    | 'NOT_XML'
    | 'NOT_MUSICXML'
    | 'TIMEWISE'
    | 'TOO_LARGE'
    | 'NO_DRUMS'
    | 'METER'
    | 'BARS'
    | 'NOT_MXL'
    | PatternError['code'];
  /** Such as "line 3, column 5" or "bar 4"; empty for the whole file. */
  readonly place: string;
  /** What is the matter and what to do. */
  readonly message: string;
}

export const refused = (
  code: MusicXmlError['code'],
  message: string,
  place = '',
): Result<never, MusicXmlError> => bad({ code, place, message });
