import * as v from 'valibot';
import { parseBeats } from '../../time/beats';
import { parseMeter } from '../../time/meter';
import { bad, good, type Result } from '../../time/result';
import { checkPlaces } from './check-places';
import { checkSelections } from './check-selections';
import { parseGrouping } from './parse-grouping';
import type { Change, Layer, Phrase, Selector } from '../model/phrase';
import { phraseError, type PhraseError } from '../model/phrase-error';
import {
  changeSchema,
  MAX_CYCLE,
  type ChangeFile,
  type PhraseFile,
  type SelectorFile,
} from '../model/phrase-file';
import { readShape } from './read-shape';
import { parseSwing } from '../model/swing';

/** Longest text that is read as a phrase, characters. Chosen, not measured: a hundred times a rich phrase. */
const MAX_TEXT = 400_000;

/**
 * A phrase from the text of its file, or everything that is wrong with it.
 *
 * @example parsePhrase('{ "title": }').errors[0].code // => 'NOT_JSON'
 */
export function parsePhrase(text: string): Result<Phrase, PhraseError> {
  if (text.length > MAX_TEXT) {
    const found = `${text.length} characters`;
    return bad(phraseError('TOO_LARGE', '', { found, expected: MAX_TEXT }));
  }
  let file: unknown;
  try {
    file = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    return bad(phraseError('NOT_JSON', '', { detail: whereItBreaks(text, error as SyntaxError) }));
  }
  return checkPhrase(file);
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

/**
 * A phrase from the data of its file, or everything that is wrong with it.
 *
 * @example checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value.cycle // => 3
 */
export function checkPhrase(file: unknown): Result<Phrase, PhraseError> {
  const shape = readShape(file);
  if (!shape.ok) return bad(...withGrouping(shape.errors, file));
  const built = buildPhrase(shape.value);
  if (!built.ok) return built;
  const phrase = built.value;
  const misplaced = checkPlaces(phrase);
  const errors = misplaced.length > 0 ? misplaced : checkSelections(phrase);
  return errors.length > 0 ? bad(...errors) : good(phrase);
}

/** What is wrong with the shape, and with a grouping that can be read all the same, in the file's order. */
function withGrouping(errors: readonly PhraseError[], file: unknown): readonly PhraseError[] {
  const text = (file as { grouping?: unknown } | null)?.grouping;
  const isRead = typeof text === 'string' && !errors.some(({ place }) => place === 'grouping');
  const grouping = isRead ? parseGrouping(text) : undefined;
  if (!grouping || grouping.ok) return errors;
  const after = errors.findIndex(({ place }) => /^(?:cycle|swing|layers)/.test(place));
  return errors.toSpliced(after < 0 ? errors.length : after, 0, ...grouping.errors);
}

function buildPhrase(file: PhraseFile): Result<Phrase, PhraseError> {
  const grouping = parseGrouping(file.grouping);
  const errors: PhraseError[] = grouping.ok ? [] : [...grouping.errors];
  if (grouping.ok && grouping.value.length > MAX_CYCLE)
    errors.push(
      phraseError('TOO_MANY', 'grouping', {
        found: grouping.value.length,
        things: 'steps',
        expected: MAX_CYCLE,
      }),
    );
  const swing = file.swing === undefined ? undefined : readSwing(file.swing, 'swing', errors);
  const layers = file.layers.map(({ name, muted, changes = [] }, i): Layer => {
    const built = changes.flatMap((change, j) => {
      const one = buildChange(change, `layers[${i}].changes[${j}]`, errors);
      return one ? [one] : [];
    });
    return muted ? { name, changes: [], muted: built } : { name, changes: built };
  });
  if (!grouping.ok || errors.length > 0) return bad(...errors);
  return good({
    title: file.title,
    meter: parseMeter(file.meter)!,
    meterText: file.meter,
    tempoBpm: file.tempoBpm,
    subdivision: file.subdivision,
    groupingText: file.grouping,
    grouping: grouping.value,
    cycle: file.cycle ?? grouping.value.length,
    swing,
    layers,
  });
}

/** A change from its file, or undefined when it has not the shape of any. */
export function readChange(file: unknown): Change | undefined {
  const shape = v.safeParse(changeSchema, file);
  return shape.success ? buildChange(shape.output, '', []) : undefined;
}

function readSwing(text: string, place: string, errors: PhraseError[]) {
  const swing = parseSwing(text);
  if (!swing) errors.push(phraseError('SWING_RATIO', place, { found: `"${text}"` }));
  return swing;
}

function buildChange(file: ChangeFile, place: string, errors: PhraseError[]): Change | undefined {
  if ('set' in file) return { kind: 'set', where: buildSelector(file.where), set: file.set };
  if ('pickup' in file) return { kind: 'pickup', pickup: file.pickup };
  if ('accentEvery' in file) {
    const { accentEvery, from = 1, where = {} } = file;
    return { kind: 'accentEvery', accentEvery, from, where: buildSelector(where) };
  }
  if ('displace' in file) return { kind: 'displace', displace: file.displace };
  if ('subdivision' in file) return { kind: 'subdivision', subdivision: file.subdivision };
  if ('add' in file) return { kind: 'add', add: file.add };
  const swing = readSwing(file.swing, `${place}.swing`, errors);
  return swing && { kind: 'swing', swing };
}

/** A selector from its file, whose shape has been checked, so that every beat can be read. */
export function buildSelector({ beats, not, any, ...rest }: SelectorFile): Selector {
  return {
    ...rest,
    ...(beats && { beats: beats.map((text) => parseBeats(text)!) }),
    ...(not && { not: buildSelector(not) }),
    ...(any && { any: any.map(buildSelector) }),
  };
}
