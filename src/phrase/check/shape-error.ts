import type * as v from 'valibot';
import { nearestWord } from '../../words/nearest-word';
import { phraseError, type PhraseError } from '../model/phrase-error';
import { CHANGE_KINDS } from '../model/phrase-file';
import { VOICES } from '../model/voice';

/** What a schema found, as an error at its place in a phrase file; `start` is the place of what was looked at. */
export function shapeError(issue: v.BaseIssue<unknown>, start = ''): PhraseError {
  const placeOf = (inside: string) =>
    start !== '' && inside !== '' ? `${start}.${inside}` : start + inside;
  const path = issue.path ?? [];
  const list = path.findIndex(({ type, input }) => type === 'object' && Array.isArray(input));
  if (list >= 0)
    return phraseError('WRONG_TYPE', placeOf(placeText(path.slice(0, list))), {
      found: A_LIST,
      expected: AN_OBJECT,
    });
  const place = placeOf(placeText(path));
  const last = issue.path?.at(-1)?.key;
  const key = typeof last === 'string' ? readable(last) : '';
  const { type, input } = issue;
  const found = inputText(input);
  if (type === 'strict_object' && issue.expected === 'never') {
    const nearest = nearestWord(key, issue.message.split(' '));
    return phraseError('UNKNOWN_KEY', place, { key, expected: `"${nearest}"` });
  }
  if (type === 'strict_object' && issue.path && issue.expected !== 'Object')
    return phraseError('MISSING_KEY', place, { key, expected: KEY_MEANINGS[key] ?? 'a value' });
  switch (type) {
    case 'picklist':
      return key === 'voice' && typeof input === 'string'
        ? phraseError('UNKNOWN_VOICE', place, { found, nearest: nearestWord(input, VOICES) })
        : phraseError('UNKNOWN_WORD', place, { found, expected: plain(issue.expected) });
    case 'integer':
      return phraseError('NOT_WHOLE', place, { found, expected: issue.message });
    case 'min_value':
    case 'max_value':
      return phraseError('OUT_OF_RANGE', place, { found, expected: issue.message });
    case 'min_length':
      return phraseError(key === 'layers' ? 'NO_LAYER' : 'NO_ENTRY', place);
    case 'min_entries':
      return phraseError('NO_SETTING', place);
    case 'max_length': {
      const facts = { found: issue.received, expected: String(issue.requirement) };
      return typeof input === 'string'
        ? phraseError('TOO_LONG', place, facts)
        : phraseError('TOO_MANY', place, { ...facts, things: LISTED[key] ?? 'entries' });
    }
    case 'regex':
      return textError(key, place, found, issue);
    case 'never':
      return phraseError('WRONG_TYPE', place, { found, expected: AN_OBJECT });
    case 'union': {
      const keys = typeof input === 'object' ? Object.keys(input ?? {}) : [];
      return phraseError('CHANGE_KIND', place, {
        found: keys.length > 0 ? `only ${keys.map((name) => `"${name}"`).join(', ')}` : found,
        expected: CHANGE_KINDS.map((kind) => `"${kind}"`).join(', '),
      });
    }
    default:
      return phraseError('WRONG_TYPE', place, { found, expected: typeName(issue.expected) });
  }
}

/** What a key that must be there is for. */
const KEY_MEANINGS: Readonly<Record<string, string>> = {
  title: 'the name of the phrase',
  meter: 'the meter as text, such as "4/4"',
  tempoBpm: 'beats per minute from 30 to 300',
  subdivision: 'partials per beat from 1 to 12',
  grouping: 'the root strokes, such as "R L K"',
  layers: 'a list with at least one layer',
  name: 'the name of the layer',
  where: 'the notes that the set is for',
  set: 'what the notes become',
  partialsBefore: 'how many partials before the downbeat the stroke comes',
  partials: 'how many partials until the places come round',
  at: 'a list of places among these partials, from 1',
  position: 'a partial of the cycle, from 1',
  limb: 'one of "R", "L", "K", "F"',
};

/** What a list holds, by its key. */
const LISTED: Readonly<Record<string, string>> = { layers: 'layers', changes: 'changes' };

/** What to write where nothing is written, by the key of the text or of its list. */
const BLANK: Readonly<Record<string, string>> = {
  title: 'Give the phrase a title, so that it can be found again',
  name: 'Give the layer a name, such as what it adds',
  grouping: 'Write the grouping, such as R L K',
  meter: 'Write the meter, such as 4/4',
  swing: 'Write the swing, such as 2:1',
};

function textError(key: string, place: string, found: string, { input }: v.BaseIssue<unknown>) {
  const remedy = BLANK[key];
  if (remedy !== undefined && typeof input === 'string' && input.trim() === '')
    return phraseError('NO_TEXT', place, { remedy });
  if (key === 'meter') return phraseError('METER', place, { found });
  if (key === 'swing') return phraseError('SWING_RATIO', place, { found });
  return phraseError('BEAT_TEXT', place, { found });
}

/** @example placeText([{ key: 'layers' }, { key: 0 }, { key: 'name' }]) // => 'layers[0].name' */
export const placeText = (path: readonly { readonly key?: unknown }[]): string =>
  path
    .map(({ key }) => (typeof key === 'number' ? `[${key}]` : `.${readable(String(key))}`))
    .join('')
    .replace(/^\./, '');

/** A key on one line, cut when it is long. */
export const readable = (key: string) => JSON.stringify(key.slice(0, 40)).slice(1, -1);

const plain = (expected: string | null) =>
  (expected ?? '').replace(/^\(|\)$/g, '').replace(/ \| /g, ', ');

const A_LIST = 'a list';
export const AN_OBJECT = 'keys with their values, in braces,';

function typeName(expected: string | null): string {
  if (expected === 'Array') return 'a list, in brackets,';
  if (expected === 'Object') return AN_OBJECT;
  if (expected === 'boolean') return 'true or false';
  return expected === 'string' ? 'text in quotes' : 'a number without quotes';
}

/** The input itself when it is short, else its kind. */
export function inputText(input: unknown): string {
  if (Array.isArray(input)) return A_LIST;
  if (typeof input === 'object' && input !== null) return 'an object';
  if (input === undefined) return 'nothing';
  // JSON has no such number: its text was longer than any.
  if (input === Infinity || input === -Infinity) return input > 0 ? 'over 1e308' : 'under -1e308';
  const text = JSON.stringify(input);
  return text.length <= 60 ? text : `${text.slice(0, 57)}…"`;
}
