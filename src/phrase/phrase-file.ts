import * as v from 'valibot';
import { LEVELS, type Level } from './level';
import { LIMBS, type Limb } from './limb';
import type { Grace } from './phrase';
import { VOICES, type Voice } from './voice';

/** Most partials in a cycle. Chosen, not measured: 32 bars of sixteenths in 4/4. */
export const MAX_CYCLE = 512;
/** Chosen, not measured: beyond what anybody practises, small enough to check at once. */
export const MAX_LAYERS = 32;
const MAX_CHANGES = 64;

/** A phrase as it stands in a file. */
export interface PhraseFile {
  title: string;
  meter: string;
  tempoBpm: number;
  subdivision: number;
  grouping: string;
  cycle?: number;
  swing?: string;
  layers: LayerFile[];
}
export interface LayerFile {
  name: string;
  changes?: ChangeFile[];
}
export interface WhereFile {
  limb?: Limb;
  positions?: number[];
  nth?: number[];
  beats?: string[];
  voice?: Voice;
  level?: Level;
  grace?: boolean;
  not?: WhereFile;
  any?: WhereFile[];
}
export interface SettingFile {
  voice?: Voice;
  level?: Level;
  limb?: Limb;
  silent?: boolean;
  grace?: Grace;
}
export interface PickupFile {
  partialsBefore: number;
  limb: Limb;
  voice?: Voice;
  level?: Level;
}
export interface AddedFile {
  position: number;
  limb: Limb;
  voice?: Voice;
  level?: Level;
}
export type ChangeFile =
  | { where: WhereFile; set: SettingFile }
  | { pickup: PickupFile[] }
  | { accentEvery: number; from?: number; where?: WhereFile }
  | { displace: number }
  | { subdivision: number }
  | { swing: string }
  | { add: AddedFile[] };

/** An object with these keys and no others; an unknown key's message lists them. */
const shape = <const T extends v.ObjectEntries>(entries: T) =>
  v.strictObject(entries, Object.keys(entries).join(' '));
const whole = (from: number, to: number) =>
  v.pipe(v.number(), v.integer(), v.minValue(from), v.maxValue(to));
const list = <T extends v.GenericSchema>(item: T, most: number) =>
  v.pipe(v.array(item), v.minLength(1), v.maxLength(most));
const name = v.pipe(v.string(), v.maxLength(120), v.regex(/\S/));
const limb = v.picklist(LIMBS);
const voice = v.picklist(VOICES);
const level = v.picklist(LEVELS);
const partials = whole(1, MAX_CYCLE);
const subdivision = whole(1, 12);
const swing = v.pipe(v.string(), v.regex(/^[1-9]\d{0,2}:[1-9]\d{0,2}$/));
const beat = v.pipe(v.string(), v.regex(/^\d{1,3}(?: \d{1,3}\/[1-9]\d{0,2}|\/[1-9]\d{0,2})?$/));

/** The `check` is for a list, which has no unknown keys as long as it is empty. */
const where: v.GenericSchema<WhereFile> = v.pipe(
  shape({
    limb: v.exactOptional(limb),
    positions: v.exactOptional(list(partials, MAX_CYCLE)),
    nth: v.exactOptional(list(partials, MAX_CYCLE)),
    beats: v.exactOptional(list(beat, MAX_CYCLE)),
    voice: v.exactOptional(voice),
    level: v.exactOptional(level),
    grace: v.exactOptional(v.boolean()),
    not: v.exactOptional(v.lazy(() => where)),
    any: v.exactOptional(
      list(
        v.lazy(() => where),
        MAX_CHANGES,
      ),
    ),
  }),
  v.check((input) => !Array.isArray(input)),
);

const settings = v.pipe(
  shape({
    voice: v.exactOptional(voice),
    level: v.exactOptional(level),
    limb: v.exactOptional(limb),
    silent: v.exactOptional(v.boolean()),
    grace: v.exactOptional(v.picklist(['none', 'flam', 'drag'])),
  }),
  v.minEntries(1),
);

const pickupStroke = shape({
  partialsBefore: partials,
  limb,
  voice: v.exactOptional(voice),
  level: v.exactOptional(level),
});
const addedStroke = shape({
  position: partials,
  limb,
  voice: v.exactOptional(voice),
  level: v.exactOptional(level),
});

/** The kinds of change, by the key that tells them apart. */
const CHANGES = {
  set: shape({ where, set: settings }),
  pickup: shape({ pickup: list(pickupStroke, MAX_CYCLE) }),
  accentEvery: shape({
    accentEvery: partials,
    from: v.exactOptional(partials),
    where: v.exactOptional(where),
  }),
  displace: shape({ displace: whole(1 - MAX_CYCLE, MAX_CYCLE - 1) }),
  subdivision: shape({ subdivision }),
  swing: shape({ swing }),
  add: shape({ add: list(addedStroke, MAX_CYCLE) }),
} as const;
export const CHANGE_KINDS = Object.keys(CHANGES) as (keyof typeof CHANGES)[];

const anyChange: v.GenericSchema<ChangeFile> = v.union(Object.values(CHANGES));

/** Checked against the kind its key names, so that an error is about that kind and not about all. */
const change: v.GenericSchema<ChangeFile> = v.lazy((input) => {
  const kind = CHANGE_KINDS.find(
    (key) => typeof input === 'object' && input !== null && Object.hasOwn(input, key),
  );
  return kind === undefined ? anyChange : CHANGES[kind];
});

/** The shape of a phrase file. What depends on more than one key is checked by checkPhrase. */
export const phraseFileSchema: v.GenericSchema<PhraseFile> = shape({
  title: name,
  meter: v.pipe(v.string(), v.regex(/^(?:[1-9]|[12]\d|3[0-2])\/(?:4|8|16)$/)),
  tempoBpm: v.pipe(v.number(), v.minValue(30), v.maxValue(300)),
  subdivision,
  grouping: v.pipe(v.string(), v.maxLength(4096), v.regex(/\S/)),
  cycle: v.exactOptional(partials),
  swing: v.exactOptional(swing),
  layers: list(
    shape({
      name,
      changes: v.exactOptional(v.pipe(v.array(change), v.maxLength(MAX_CHANGES))),
    }),
    MAX_LAYERS,
  ),
});
