import type { PatternError } from '../phrase/decompose/target-pattern';
import { bad, type Result } from '../time/result';

/** Why a file is no phrase. */
export interface PhraseInFileError {
  readonly code:
    'NO_PERCUSSION' | 'FRAMES' | 'METER' | 'LAYER' | 'NOT_WRITTEN' | PatternError['code'];
  /** A sentence that says what is the matter and what to do. */
  readonly message: string;
}

export const notAPhrase = (
  code: PhraseInFileError['code'],
  message: string,
): Result<never, PhraseInFileError> => bad({ code, message });
