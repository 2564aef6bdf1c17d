import { bad, good, type Result } from '../../time/result';
import { phraseError, type PhraseError } from '../model/phrase-error';

/** The data of a text that should be JSON, or where it breaks. A byte order mark ahead of it is passed over. */
export function jsonOfText(text: string): Result<unknown, PhraseError> {
  try {
    return good(JSON.parse(text.replace(/^\uFEFF/, '')));
  } catch (error) {
    return bad(phraseError('NOT_JSON', '', { detail: whereItBreaks(text, error as SyntaxError) }));
  }
}

/** Engines say in their own ways where a text is no longer JSON, or do not say. */
function whereItBreaks(text: string, { message }: SyntaxError): string {
  const [, line, column] = /line (\d+) column (\d+)/.exec(message) ?? [];
  if (line !== undefined && column !== undefined)
    return `it breaks at line ${line}, column ${column}`;
  const [, position] = /position (\d+)/.exec(message) ?? [];
  if (position === undefined)
    return /end/i.test(message) ? 'it ends too soon' : 'it cannot be read';
  const before = text.slice(0, Number(position)).split('\n');
  return `it breaks at line ${before.length}, column ${before.at(-1)!.length + 1}`;
}
