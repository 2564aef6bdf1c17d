/** What is read from the throne: more words are read at the desk (shared coaching notes, 7). */
const MOST_WORDS = 12;

/** Where it happens most often stands beside it as long as it is short enough. */
export function struckWords(
  what: string,
  where: string | undefined,
): { text: string; detail?: string } {
  if (where === undefined) return { text: `${what}.` };
  const text = `${what}: ${where}.`;
  return text.split(' ').length <= MOST_WORDS
    ? { text }
    : { text: `${what}.`, detail: `Most often: ${where}.` };
}
