/**
 * Opening brackets at most, in all and within each other. Chosen, not measured: far more than any file needs, and few
 * enough that they cost nothing. A browser takes 100 ms for a million characters of them, which a link of a thousand
 * characters can hold.
 */
const MOST_BRACKETS = 100_000;
const MOST_NESTED = 1000;

/** Which brackets of a JSON text are too many to be read in no time; undefined where none are. */
export function bracketsBeyond(text: string): { found: string; expected: number } | undefined {
  let all = 0;
  let depth = 0;
  let isQuoted = false;
  for (let i = 0; i < text.length; i++) {
    const letter = text[i];
    if (letter === '"') isQuoted = !isQuoted;
    else if (isQuoted) i += letter === '\\' ? 1 : 0;
    else if (letter === ']' || letter === '}') depth--;
    else if (letter === '[' || letter === '{') {
      if (++depth > MOST_NESTED)
        return { found: `over ${MOST_NESTED} brackets within each other`, expected: MOST_NESTED };
      if (++all > MOST_BRACKETS)
        return { found: `over ${MOST_BRACKETS} brackets`, expected: MOST_BRACKETS };
    }
  }
  return undefined;
}
