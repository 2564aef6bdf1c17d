import { readdirSync, type Stats, statSync } from 'node:fs';
import { join } from 'node:path';
import { InputError } from '../input-error';

const TAKE_ENDING = /\.(?:mid|midi|json)$/i;

const statOf = (path: string): Stats | undefined => {
  try {
    return statSync(path);
  } catch {
    return undefined;
  }
};

export const isFolder = (path: string): boolean => statOf(path)?.isDirectory() ?? false;

/**
 * The takes that words name: files as they are, of a folder its own .mid, .midi and .json files in the order of their
 * names, without those that are read as something else.
 *
 * @param others files that may lie there too: the phrase, the kit
 * @throws InputError for a folder without any.
 */
export function takePaths(
  words: readonly string[],
  others: readonly (string | undefined)[],
): readonly string[] {
  const known = others.flatMap((path) => (path === undefined ? [] : [statOf(path)]));
  const isKnown = (path: string) => {
    const stat = statOf(path);
    return known.some((one) => one && stat && one.ino === stat.ino && one.dev === stat.dev);
  };
  return words.flatMap((word) => {
    if (!isFolder(word)) return [word];
    const paths = readdirSync(word, { withFileTypes: true })
      .filter((entry) => !entry.isDirectory() && TAKE_ENDING.test(entry.name))
      .map(({ name }) => name)
      .sort()
      .map((name) => join(word, name))
      .filter((path) => !isKnown(path));
    if (paths.length > 0) return paths;
    throw new InputError(`${word}: found no takes in this folder, expected .mid or .json files.`);
  });
}
