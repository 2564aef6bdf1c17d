import { readdirSync, readFileSync } from 'node:fs';
import { parsePhrase } from '../../../src/phrase/file/parse-phrase';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { valueOf } from '../../phrase/decompose/taken-apart';

const FOLDER = new URL('../../../shared/phrases/', import.meta.url);

/** The phrases that come with the app. */
export const libraryPhrases = (): readonly Phrase[] =>
  readdirSync(FOLDER)
    .filter((name) => name.endsWith('.json'))
    .map((name) => valueOf(parsePhrase(readFileSync(new URL(name, FOLDER), 'utf8'))));
