import { checkPhrase, parsePhrase } from '../../../src/phrase/file/parse-phrase';
import type { PhraseError, PhraseErrorCode } from '../../../src/phrase/model/phrase-error';

/** A phrase without fault, four partials long, to break in one place at a time. */
export const SOUND = {
  title: 'Slack Water',
  meter: '4/4',
  tempoBpm: 90,
  subdivision: 4,
  grouping: 'R L L K',
  layers: [{ name: 'Sticking' }],
};

export interface BrokenPhrase {
  readonly code: PhraseErrorCode;
  readonly place: string;
  /** Data, or text that is no JSON. */
  readonly file: unknown;
  /** Whether the JSON Schema alone can tell. */
  readonly byShape: boolean;
}

const shape = (code: PhraseErrorCode, place: string, file: unknown): BrokenPhrase => ({
  code,
  place,
  file,
  byShape: true,
});
const sense = (code: PhraseErrorCode, place: string, file: unknown): BrokenPhrase => ({
  code,
  place,
  file,
  byShape: false,
});
const changed = (...changes: unknown[]) => ({
  ...SOUND,
  layers: [{ name: 'Sticking' }, { name: 'Second', changes }],
});
const AT = 'layers[1].changes[0]';
const ACCENT = { level: 'accent' };
const nested = (depth: number): object =>
  depth === 0 ? { limb: 'R' } : { not: nested(depth - 1) };

/** Broken phrases by what is wrong with them, at least one for each code of the catalogue. */
export const BROKEN_PHRASES: readonly BrokenPhrase[] = [
  sense('NOT_JSON', '', '{ "title": "Slack Water", }'),
  sense('NOT_JSON', '', ''),
  sense('TOO_LARGE', '', ' '.repeat(400_001)),
  sense('TOO_LARGE', '', changed({ where: nested(60), set: ACCENT })),
  sense('TOO_LARGE', '', changed({ where: nested(5000), set: ACCENT })),
  sense('TOO_LARGE', 'layers', {
    ...SOUND,
    cycle: 509,
    layers: [
      { name: 'a' },
      {
        name: 'b',
        changes: [
          { accentEvery: 512 },
          { accentEvery: 511 },
          { where: { limb: 'F' }, set: { voice: 'cowbell' } },
        ],
      },
    ],
  }),
  shape('SEVERAL_PHRASES', 'phrases', { phrases: [SOUND] }),
  shape('WRONG_TYPE', '', []),
  shape('WRONG_TYPE', '', null),
  shape('WRONG_TYPE', 'title', { ...SOUND, title: 7 }),
  shape('WRONG_TYPE', 'tempoBpm', { ...SOUND, tempoBpm: '90' }),
  shape('WRONG_TYPE', 'layers', { ...SOUND, layers: {} }),
  shape('WRONG_TYPE', 'layers[0]', { ...SOUND, layers: ['Sticking'] }),
  shape('WRONG_TYPE', `${AT}.where`, changed({ where: [], set: ACCENT })),
  shape('WRONG_TYPE', `${AT}.where.grace`, changed({ where: { grace: 'yes' }, set: ACCENT })),
  shape('MISSING_KEY', 'grouping', {
    title: 'a',
    meter: '4/4',
    tempoBpm: 90,
    subdivision: 4,
    layers: [{ name: 'a' }],
  }),
  shape('MISSING_KEY', 'layers[0].name', { ...SOUND, layers: [{}] }),
  shape('MISSING_KEY', `${AT}.where`, changed({ set: ACCENT })),
  shape('MISSING_KEY', `${AT}.pickup[0].limb`, changed({ pickup: [{ partialsBefore: 1 }] })),
  shape('UNKNOWN_KEY', 'bpm', { ...SOUND, bpm: 90 }),
  shape('UNKNOWN_KEY', `${AT}.where.position`, changed({ where: { position: 1 }, set: ACCENT })),
  shape('UNKNOWN_KEY', `${AT}.level`, changed({ displace: 1, level: 'tap' })),
  shape('OUT_OF_RANGE', 'tempoBpm', { ...SOUND, tempoBpm: 1201 }),
  shape('OUT_OF_RANGE', 'tempoBpm', { ...SOUND, tempoBpm: 29.5 }),
  shape('OUT_OF_RANGE', 'subdivision', { ...SOUND, subdivision: 13 }),
  shape('OUT_OF_RANGE', 'cycle', { ...SOUND, cycle: 0 }),
  shape('OUT_OF_RANGE', 'cycle', { ...SOUND, cycle: 513 }),
  sense('OUT_OF_RANGE', `${AT}.from`, changed({ accentEvery: 3, from: 4 })),
  sense(
    'OUT_OF_RANGE',
    `${AT}.where.every.at[1]`,
    changed({ where: { every: { partials: 3, at: [1, 4] } }, set: ACCENT }),
  ),
  shape(
    'MISSING_KEY',
    `${AT}.where.every.at`,
    changed({ where: { every: { partials: 3 } }, set: ACCENT }),
  ),
  shape('NOT_WHOLE', 'cycle', { ...SOUND, cycle: 4.5 }),
  shape('NO_TEXT', 'title', { ...SOUND, title: ' ' }),
  shape('TOO_LONG', 'title', { ...SOUND, title: 'x'.repeat(121) }),
  shape('NO_LAYER', 'layers', { ...SOUND, layers: [] }),
  shape('TOO_MANY', 'layers', { ...SOUND, layers: Array(33).fill({ name: 'a' }) }),
  shape('NO_SETTING', `${AT}.set`, changed({ where: {}, set: {} })),
  shape('NO_ENTRY', `${AT}.where.positions`, changed({ where: { positions: [] }, set: ACCENT })),
  sense('TOO_MANY', 'grouping', { ...SOUND, grouping: 'R '.repeat(513) }),
  shape('UNKNOWN_WORD', `${AT}.where.limb`, changed({ where: { limb: 'r' }, set: ACCENT })),
  shape('UNKNOWN_WORD', `${AT}.set.level`, changed({ where: {}, set: { level: 'loud' } })),
  shape('UNKNOWN_WORD', `${AT}.set.grace`, changed({ where: {}, set: { grace: 'ruff' } })),
  shape('UNKNOWN_VOICE', `${AT}.set.voice`, changed({ where: {}, set: { voice: 'tom' } })),
  shape('METER', 'meter', { ...SOUND, meter: '4/2' }),
  shape('METER', 'meter', { ...SOUND, meter: '33/8' }),
  shape('METER', 'meter', { ...SOUND, meter: '04/4' }),
  shape('NO_TEXT', 'meter', { ...SOUND, meter: '' }),
  shape('NO_TEXT', 'grouping', { ...SOUND, grouping: ' ' }),
  shape('NO_TEXT', 'layers[0].name', { ...SOUND, layers: [{ name: '' }] }),
  shape('NO_TEXT', `${AT}.swing`, changed({ swing: '' })),
  shape('SWING_RATIO', 'swing', { ...SOUND, swing: '2' }),
  sense('SWING_RATIO', 'swing', { ...SOUND, swing: '1:2' }),
  sense('SWING_RATIO', `${AT}.swing`, changed({ swing: '9:2' })),
  shape('BEAT_TEXT', `${AT}.where.beats[0]`, changed({ where: { beats: ['2.5'] }, set: ACCENT })),
  shape('BEAT_TEXT', `${AT}.where.beats[0]`, changed({ where: { beats: ['1/0'] }, set: ACCENT })),
  sense(
    'BEAT_TEXT',
    `${AT}.where.beats[1]`,
    changed({ where: { beats: ['1', '0'] }, set: ACCENT }),
  ),
  shape('CHANGE_KIND', AT, changed({ transpose: 2 })),
  shape('CHANGE_KIND', AT, changed({ where: { limb: 'R' } })),
  shape('CHANGE_KIND', AT, changed('displace')),
  sense('GROUPING_TOKEN', 'grouping[1]', { ...SOUND, grouping: 'R B' }),
  sense('NO_STROKE', 'grouping', { ...SOUND, grouping: '- -' }),
  sense('NO_STROKE', 'grouping', { ...SOUND, grouping: '- - R', cycle: 2 }),
  sense('LIMB_TWICE', 'grouping[0]', { ...SOUND, grouping: 'R+R' }),
  sense('LIMB_TWICE', AT, changed({ add: [{ position: 1, limb: 'R' }] })),
  sense('LIMB_TWICE', AT, {
    ...changed({ where: { limb: 'R', beats: ['2'] }, set: { limb: 'K' } }),
    grouping: 'R+K - -',
  }),
  sense(
    'LIMB_TWICE',
    AT,
    changed({
      pickup: [
        { partialsBefore: 1, limb: 'R' },
        { partialsBefore: 1, limb: 'R' },
      ],
    }),
  ),
  sense('GRACE_ON_FOOT', 'grouping[0]', { ...SOUND, grouping: 'rK' }),
  sense('GRACE_ON_FOOT', AT, {
    ...changed({ where: { limb: 'R' }, set: { limb: 'K' } }),
    grouping: 'lR L',
  }),
  sense('GRACE_ON_FOOT', AT, {
    ...changed({ where: { grace: true }, set: { limb: 'F' } }),
    grouping: 'lR L',
  }),
  sense('GRACE_ON_FOOT', AT, changed({ where: { limb: 'K' }, set: { grace: 'flam' } })),
  sense('GRACE_OF_GRACE', `${AT}.set.grace`, {
    ...changed({ where: { grace: true }, set: { grace: 'flam' } }),
    grouping: 'lR L',
  }),
  sense(
    'POSITION_BEYOND_CYCLE',
    `${AT}.where.not.positions[1]`,
    changed({ where: { not: { positions: [4, 5] } }, set: ACCENT }),
  ),
  sense(
    'POSITION_BEYOND_CYCLE',
    `${AT}.add[0].position`,
    changed({ add: [{ position: 5, limb: 'F' }] }),
  ),
  sense(
    'NTH_BEYOND_STROKES',
    `${AT}.where.nth[0]`,
    changed({ where: { limb: 'L', nth: [3] }, set: ACCENT }),
  ),
  sense(
    'NTH_BEYOND_STROKES',
    `${AT}.where.any[0].nth[0]`,
    changed({ where: { any: [{ nth: [3] }, { limb: 'R' }] }, set: ACCENT }),
  ),
  sense(
    'BEAT_BEYOND_BAR',
    `${AT}.where.beats[0]`,
    changed({ where: { beats: ['5'] }, set: ACCENT }),
  ),
  sense('BEAT_BEYOND_BAR', `${AT}.where.beats[0]`, {
    ...changed({ where: { beats: ['3'] }, set: ACCENT }),
    meter: '6/8',
  }),
  sense('SELECTS_NOTHING', AT, changed({ where: { limb: 'F' }, set: ACCENT })),
  sense('SELECTS_NOTHING', AT, changed({ where: { grace: true }, set: ACCENT })),
  sense('SELECTS_NOTHING', AT, changed({ where: { beats: ['1 1/3'] }, set: ACCENT })),
  sense(
    'SELECTS_NOTHING',
    'layers[1].changes[1]',
    changed({ where: { limb: 'R' }, set: { limb: 'F' } }, { where: { limb: 'R' }, set: ACCENT }),
  ),
  sense('SELECTS_NOTHING', AT, changed({ accentEvery: 4, where: { limb: 'L' } })),
  sense('SWING_METER', 'swing', { ...SOUND, meter: '7/8', swing: '2:1' }),
  sense('SWING_METER', `${AT}.swing`, { ...changed({ swing: '2:1' }), meter: '6/8' }),
  sense('PICKUP_TOO_LONG', AT, changed({ pickup: [{ partialsBefore: 17, limb: 'R' }] })),
  sense(
    'PICKUP_TOO_LONG',
    'layers[1].changes[1]',
    changed({ pickup: [{ partialsBefore: 16, limb: 'R' }] }, { subdivision: 3 }),
  ),
  sense('DISPLACED_TOO_FAR', `${AT}.displace`, changed({ displace: -4 })),
  sense(
    'DISPLACED_TOO_FAR',
    'layers[1].changes[1].displace',
    changed({ displace: 2 }, { displace: 2 }),
  ),
];

export const errorsOf = (file: unknown): readonly PhraseError[] => {
  const checked = typeof file === 'string' ? parsePhrase(file) : checkPhrase(file);
  return checked.ok ? [] : checked.errors;
};

const known = new Map<BrokenPhrase, readonly PhraseError[]>();

/** What is said of one of them, looked for once: the one that is barely too large takes seconds. */
export function errorsOfBroken(broken: BrokenPhrase): readonly PhraseError[] {
  const errors = known.get(broken) ?? errorsOf(broken.file);
  known.set(broken, errors);
  return errors;
}

export const errorsOfAll = (): readonly PhraseError[] => BROKEN_PHRASES.flatMap(errorsOfBroken);
