import { readdirSync, readFileSync } from 'node:fs';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { read } from '../../../src/phrase/vary/outcome';

const FOLDER = new URL('../../../shared/phrases/', import.meta.url);

/** The phrases that come with the app. */
export const libraryPhrases = (): readonly Phrase[] =>
  readdirSync(FOLDER)
    .filter((name) => name.endsWith('.json'))
    .map((name) => read(readFileSync(new URL(name, FOLDER), 'utf8')));
