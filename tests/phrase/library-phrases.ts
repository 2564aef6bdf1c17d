import { readdirSync, readFileSync } from 'node:fs';

const FOLDER = new URL('../../shared/phrases/', import.meta.url);

/** The phrases that come with the app, by file name without its ending. */
export const libraryPhrases = (): readonly { readonly name: string; readonly text: string }[] =>
  readdirSync(FOLDER)
    .filter((file) => file.endsWith('.json'))
    .map((file) => ({
      name: file.replace(/\.json$/, ''),
      text: readFileSync(new URL(file, FOLDER), 'utf8'),
    }));
