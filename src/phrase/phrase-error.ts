/**
 * Every message a phrase file can meet, by code: what was found, what was expected, what to do.
 * `{name}` stands for a fact given with the error.
 */
export const PHRASE_MESSAGES = {
  NOT_JSON: 'This text is not JSON ({detail}); correct it there, or export the phrase again.',
  TOO_LARGE: 'The phrase holds {found}, at most {expected} are possible; make it smaller.',
  WRONG_TYPE: 'Found {found} where {expected} was expected; write {expected} here.',
  MISSING_KEY: 'The key "{key}" is missing; add it with {expected}.',
  UNKNOWN_KEY: 'The key "{key}" is not known here; use {expected}, or remove it.',
  OUT_OF_RANGE: 'Found {found}, expected a number {expected}; change it.',
  NOT_WHOLE: 'Found {found}, expected a whole number; round it.',
  SIZE: 'Found {found}, expected {expected}; make it fit.',
  UNKNOWN_WORD: 'Found {found}, expected one of {expected}; write one of these.',
  UNKNOWN_VOICE:
    'Found {found}, expected the name of a voice; write one, the nearest is "{nearest}".',
  METER:
    'Found the meter {found}, expected n/4, n/8 or n/16 with n from 1 to 32; write one such as "4/4".',
  SWING_RATIO:
    'Found the swing {found}, expected a ratio of whole numbers from 1:1 to 4:1; write one such as "2:1".',
  BEAT_TEXT:
    'Found the beat {found}, expected a number from 1 on, mixed if need be; write one such as "2 1/2".',
  CHANGE_KIND:
    'Found a change with {found}, expected one of {expected}; give it the key that says what it does.',
  GROUPING_TOKEN:
    'Found "{found}" as stroke {number} of the grouping, expected R, L, K, F, -, a unison such as R+K, or a stroke with one or two small r or l ahead of it; write one of these with spaces between.',
  NO_STROKE:
    'The cycle holds only rests, expected at least one stroke; write one into the grouping.',
  LIMB_TWICE:
    'The {limb} is asked for twice on {where}, expected at most one stroke of a limb at a time; give one of them to another limb.',
  GRACE_ON_FOOT:
    'Found grace notes at {where} with a foot, expected hands only; take the grace notes off or use a hand.',
  GRACE_OF_GRACE:
    'This change gives grace notes to grace notes, expected main notes; remove "grace": true from the where.',
  POSITION_BEYOND_CYCLE:
    'Found position {found}, expected 1 to {expected}, the partials of the cycle; choose a position in the cycle.',
  NTH_BEYOND_STROKES:
    'Found stroke number {found}, expected 1 to {expected}, as many as {limb} has in the cycle; choose one of these.',
  BEAT_BEYOND_BAR:
    'Found beat {found}, expected a beat before {expected}, where the next bar of {meter} begins; choose a beat in the bar.',
  SELECTS_NOTHING:
    'This change selects no note of the phrase as the layers before left it, expected at least one; widen its where or remove it.',
  SWING_METER:
    'Found swing in {found}, expected a meter n/4, whose off-beat eighths it moves; remove the swing or change the meter.',
  PICKUP_TOO_LONG:
    'Found a pickup stroke {found} partials before the downbeat, expected at most {expected}, one bar; shorten the pickup.',
  DISPLACED_TOO_FAR:
    'Found a displacement of {found} partials in all, expected less than one cycle of {expected} either way; displace by less.',
} as const;

export type PhraseErrorCode = keyof typeof PHRASE_MESSAGES;

/** What is wrong with a phrase file, and where. */
export interface PhraseError {
  readonly code: PhraseErrorCode;
  /** 1-based, when the place is in a layer. */
  readonly layer?: number;
  /** Path into the file with list places from 0, such as "layers[2].changes[0].where.positions[1]"; empty for the whole. */
  readonly place: string;
  /** One sentence: what was found, what was expected, what to do. */
  readonly message: string;
}

/** @example phraseError('NOT_WHOLE', 'cycle', { found: '2.5' }).message // => 'Found 2.5, expected a whole number; round it.' */
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
