/**
 * Every message a phrase file can meet, by code, in words for those who write the phrase: what is wrong, and what to
 * do. `{name}` stands for a fact given with the error.
 */
export const PHRASE_MESSAGES = {
  NOT_JSON:
    'This is no phrase file in JSON, since {detail}; choose another file, or correct it there.',
  TOO_LARGE: 'This is too large, with {found} where {expected} are possible; make it smaller.',
  SEVERAL_PHRASES:
    'This file holds a list of phrases, {found} in all, and one is read here; open it in the app and save that one by itself.',
  WRONG_TYPE: 'Here stands {found}; write {expected} in its place.',
  MISSING_KEY: 'The key "{key}" is missing; add it with {expected}.',
  UNKNOWN_KEY:
    'The key "{key}" is not known here; write {expected} if that is meant, or take it out.',
  OUT_OF_RANGE: 'The number {found} is not possible here; write one {expected}.',
  NOT_WHOLE: 'The number {found} is not whole; write a whole one {expected}.',
  NO_TEXT: '{remedy}.',
  TOO_LONG: 'This text has {found} letters; shorten it to {expected}.',
  NO_ENTRY: 'This list is empty; write at least one entry, or take the list out.',
  NO_LAYER: 'This phrase has no layer; give it at least one.',
  NO_SETTING:
    'Nothing is said of what the notes get; choose a voice, a level, a limb, silence or grace notes.',
  TOO_MANY: 'There are {found} {things} here; leave at most {expected}.',
  UNKNOWN_WORD: 'The word {found} is not known here; write one of {expected}.',
  UNKNOWN_VOICE: 'The text {found} is not the name of a voice; the nearest is "{nearest}".',
  METER:
    'The text {found} is not a meter; write one such as 4/4 or 7/8, with 1 to 32 over 4, 8 or 16.',
  SWING_RATIO:
    'The text {found} is not a swing; write the long part to the short one, from 1:1 to 4:1, such as 2:1.',
  BEAT_TEXT:
    'The text {found} is not a beat of the bar; write a number from 1 on, such as 2 or 2 1/2.',
  CHANGE_KIND:
    'This change does not say what it does, with {found}; give it one of the keys {expected}.',
  GROUPING_TOKEN: 'Step {number} of the grouping, "{found}", {remedy}.',
  NO_STROKE: 'The cycle holds only rests; write at least one stroke into the grouping.',
  LIMB_TWICE:
    'The {limb} is asked for two strokes at once on {where}; give one of them to another limb, or take it out.',
  GRACE_ON_FOOT:
    'The grace notes on {where} fall to a foot, and only hands can play them; take them off, or use a hand.',
  GRACE_OF_GRACE:
    'This change gives grace notes to grace notes; choose main notes, or give these something else.',
  POSITION_BEYOND_CYCLE:
    'There is no position {found} in a cycle of {expected} partials; choose one from 1 to {expected}.',
  NTH_BEYOND_STROKES:
    'Stroke {found} is asked for, and {limb} has {expected} in the cycle; choose other notes.',
  BEAT_BEYOND_BAR: 'There is no beat {found} in a bar of {meter}; choose one before {expected}.',
  SELECTS_NOTHING:
    'This change meets no note of the phrase as it is by then; choose other notes, or remove the change.',
  SWING_METER:
    'Swing moves the off-beat eighths of a meter over 4, and this one is {found}; take the swing out, or change the meter.',
  PICKUP_TOO_LONG:
    'The pickup begins {found} partials before the downbeat, and a bar has {expected}; shorten it to a bar.',
  DISPLACED_TOO_FAR:
    'The cycle is moved by {found} partials in all, and has {expected} itself; move it by fewer than that.',
} as const;

export type PhraseErrorCode = keyof typeof PHRASE_MESSAGES;

/** So many of a file's errors are named. Chosen, not measured: nobody reads more before mending the first. */
export const MOST_ERRORS = 20;

/** What is wrong with a phrase file, and where. */
export interface PhraseError {
  readonly code: PhraseErrorCode;
  /** 1-based, when the place is in a layer. */
  readonly layer?: number;
  /** Path into the file with list places from 0, such as "layers[2].changes[0].where.positions[1]"; empty for the whole. */
  readonly place: string;
  /** One sentence: what is wrong, and what to do. */
  readonly message: string;
}

/** @example phraseError('NO_STROKE', 'grouping').message // => 'The cycle holds only rests; write at least one stroke into the grouping.' */
export function phraseError(
  code: PhraseErrorCode,
  place: string,
  facts: Readonly<Record<string, string | number>> = {},
): PhraseError {
  const message = PHRASE_MESSAGES[code].replace(/\{(\w+)\}/g, (_, name: string) => {
    const fact = facts[name];
    if (fact === undefined) throw new RangeError(`${code} needs the fact ${name}`);
    return String(fact);
  });
  const layer = /^layers\[(\d+)\]/.exec(place)?.[1];
  return layer === undefined
    ? { code, place, message }
    : { code, layer: Number(layer) + 1, place, message };
}

/** The place of a change in the file, both places from 0. @example changePlace(1, 0) // => 'layers[1].changes[0]' */
export const changePlace = (layerIndex: number, changeIndex: number): string =>
  `layers[${layerIndex}].changes[${changeIndex}]`;
