import * as v from 'valibot';
import { bad, good, type Result } from '../../time/result';
import { AN_OBJECT, shapeError, inputText } from '../check/shape-error';
import { MOST_ERRORS, phraseError, type PhraseError } from '../model/phrase-error';
import { phraseFileSchema, type PhraseFile } from '../model/phrase-file';

/** Objects and lists within each other. Chosen, not measured: no selection that can be read needs more. */
const MAX_DEPTH = 40;

/** A phrase file of the right shape; what depends on more than one key is another matter. */
export function readShape(file: unknown): Result<PhraseFile, PhraseError> {
  if (typeof file !== 'object' || file === null || Array.isArray(file))
    return bad(phraseError('WRONG_TYPE', '', { found: inputText(file), expected: AN_OBJECT }));
  const depth = depthOf(file);
  if (depth > MAX_DEPTH)
    return bad(
      phraseError('TOO_LARGE', '', {
        found: `${depth} selections within each other`,
        expected: MAX_DEPTH,
      }),
    );
  const checked = v.safeParse(phraseFileSchema, file);
  return checked.success ? good(checked.output) : bad(...shapeErrors(checked.issues));
}

/** The first of what a schema found; a list that stands for an object has many faults and is told once. */
function shapeErrors(issues: readonly v.BaseIssue<unknown>[]): PhraseError[] {
  const errors = new Map<string, PhraseError>();
  for (const issue of issues) {
    if (errors.size === MOST_ERRORS) break;
    const error = shapeError(issue);
    errors.set(`${error.code} ${error.place}`, error);
  }
  return [...errors.values()];
}

/** Without recursion, which is what a file nested too deep would break. */
function depthOf(root: object): number {
  let depth = 0;
  for (let level: object[] = [root]; level.length > 0 && depth <= 1000; depth++) {
    const inside: object[] = [];
    for (const value of level)
      for (const each of Object.values(value) as unknown[])
        if (typeof each === 'object' && each !== null) inside.push(each);
    level = inside;
  }
  return depth;
}
