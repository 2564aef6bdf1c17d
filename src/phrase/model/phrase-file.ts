import * as v from 'valibot';
import { LEVELS } from './level';
import { LIMBS } from './limb';
import type { AddedStroke, PickupStroke, Selector, Setting } from './phrase';
import { VOICES } from './voice';

/** Most partials until the notes of a phrase that is taken apart repeat. Chosen, not measured: eight of the longest cycles. */
export const MAX_PATTERN = 4096;
/** Most partials in a cycle. Chosen, not measured: 32 bars of sixteenths in 4/4. */
export const MAX_CYCLE = 512;
/** Chosen, not measured: beyond what anybody practises, small enough to check at once. */
export const MAX_LAYERS = 32;
/** Most partials in a beat. */
export const MAX_SUBDIVISION = 12;
/** Letters of a grouping. */
const MAX_GROUPING = 4096;
/** Letters of a title or name. */
export const MAX_NAME = 120;
/** The tempi that a phrase can have in felt beats a minute; what that is in beats of its meter, see tempoRange. */
export const TEMPO_BPM = { least: 30, most: 300 } as const;
/** The same in beats of whatever meter: a meter over 16 counts four to the quarter. */
export const COUNTED_BPM = { least: TEMPO_BPM.least, most: 4 * TEMPO_BPM.most } as const;
/** Changes of a layer. Chosen, not measured. */
export const MAX_CHANGES = 64;

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
  muted?: boolean;
  changes?: ChangeFile[];
}
/** A change as it stands in a file: its key says its kind. */
export type ChangeFile =
  | { where: Selector; set: Setting }
  | { pickup: readonly PickupStroke[] }
  | { accentEvery: number; from?: number; where?: Selector }
  | { displace: number }
  | { subdivision: number }
  | { swing: string }
  | { add: readonly AddedStroke[] };

/** An object with these keys and no others; an unknown key's message lists them. */
const shape = <const T extends v.ObjectEntries>(entries: T) =>
  v.strictObject(entries, Object.keys(entries).join(' '));
/** The messages of a number are its range in words. */
const within = (from: number, to: number) => {
  const range = `from ${from} to ${to}`;
  return [
    v.minValue<number, number, string>(from, range),
    v.maxValue<number, number, string>(to, range),
  ] as const;
};
const whole = (from: number, to: number) =>
  v.pipe(v.number(), v.integer(`from ${from} to ${to}`), ...within(from, to));
const list = <T extends v.GenericSchema>(item: T, most: number) =>
  v.pipe(v.array(item), v.minLength(1), v.maxLength(most));
const told = <const T extends v.GenericSchema>(schema: T, description: string) =>
  v.pipe(schema, v.description(description));
const name = v.pipe(v.string(), v.maxLength(MAX_NAME), v.regex(/\S/));
const limb = v.picklist(LIMBS);
const voice = v.picklist(VOICES);
const level = v.picklist(LEVELS);
const partials = whole(1, MAX_CYCLE);
const patternPartials = whole(1, MAX_PATTERN);
const subdivision = told(whole(1, MAX_SUBDIVISION), 'Partials per beat');
const swing = told(
  v.pipe(v.string(), v.regex(/^[1-9]\d{0,2}:[1-9]\d{0,2}$/)),
  'Long to short part of a beat in n/4, 1:1 to 4:1',
);
const beat = v.pipe(v.string(), v.regex(/^\d{1,3}(?: \d{1,3}\/[1-9]\d{0,2}|\/[1-9]\d{0,2})?$/));

/** An empty list has no unknown keys and would pass for an object. */
const where: v.GenericSchema<Selector> = v.lazy((input) =>
  Array.isArray(input) ? v.never() : selectorSchema,
);

/** The keys of a selector. */
export const selectorSchema: v.GenericSchema<Selector> = shape({
  limb: v.exactOptional(limb),
  positions: v.exactOptional(told(list(partials, MAX_CYCLE), 'Partials of the cycle, from 1')),
  nth: v.exactOptional(
    told(list(partials, MAX_CYCLE), "Count of the limb's strokes in the cycle, from 1"),
  ),
  beats: v.exactOptional(
    told(list(beat, MAX_CYCLE), 'Beats of the bar, from 1, as mixed numbers such as "2 1/2"'),
  ),
  every: v.exactOptional(
    told(
      shape({
        partials: told(patternPartials, 'Partials after which the places come round'),
        at: told(list(patternPartials, MAX_PATTERN), 'Places among them, from 1'),
      }),
      'Places that come round whatever the cycle, counted from bar 1 beat 1',
    ),
  ),
  voice: v.exactOptional(voice),
  level: v.exactOptional(level),
  grace: v.exactOptional(
    told(
      v.boolean(),
      'true for grace notes instead of main notes, false for main notes; inside `not` it leaves those out, where without it `not` leaves out both kinds',
    ),
  ),
  not: v.exactOptional(told(where, 'What must not hold')),
  any: v.exactOptional(told(list(where, MAX_CHANGES), 'At least one of these must hold')),
});

const settings = v.pipe(
  shape({
    voice: v.exactOptional(voice),
    level: v.exactOptional(level),
    limb: v.exactOptional(limb),
    silent: v.exactOptional(told(v.boolean(), 'true keeps the stroke but lets it rest')),
    grace: v.exactOptional(
      told(v.picklist(['none', 'flam', 'drag']), 'Grace notes, by the other hand'),
    ),
  }),
  v.minEntries(1),
);

const pickupStroke = shape({
  partialsBefore: told(partials, 'Partials before the first downbeat'),
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
    accentEvery: told(partials, 'Partials from accent to accent, whatever the cycle'),
    from: v.exactOptional(told(partials, 'The first accented partial, counted from bar 1 beat 1')),
    where: v.exactOptional(where),
  }),
  displace: shape({
    displace: told(whole(1 - MAX_CYCLE, MAX_CYCLE - 1), 'Partials later against the meter'),
  }),
  subdivision: shape({ subdivision }),
  swing: shape({ swing }),
  add: shape({ add: list(addedStroke, MAX_CYCLE) }),
} as const;
export const CHANGE_KINDS = Object.keys(CHANGES) as (keyof typeof CHANGES)[];

export const changeSchema: v.GenericSchema<ChangeFile> = v.union(Object.values(CHANGES));

/** Checked against the kind its key names, so that an error is about that kind and not about all. */
const change: v.GenericSchema<ChangeFile> = v.lazy((input) => {
  const kind = CHANGE_KINDS.find(
    (key) => typeof input === 'object' && input !== null && Object.hasOwn(input, key),
  );
  return kind === undefined ? changeSchema : CHANGES[kind];
});

/** What stands in a phrase file ahead of its layers. */
const HEAD = {
  title: name,
  meter: told(
    v.pipe(v.string(), v.regex(/^(?:[1-9]|[12]\d|3[0-2])\/(?:4|8|16)$/)),
    '1 to 32 over 4, 8 or 16; over 8 and 16 a number above 3 that three divides is felt in dotted beats: 6/8 two, 9/8 three, 12/8 four, 15/8 five; every other meter counts its lower figure',
  ),
  tempoBpm: told(
    v.pipe(v.number(), ...within(COUNTED_BPM.least, COUNTED_BPM.most)),
    'Beats of the meter per minute; felt beats are at most 300, partials 3600',
  ),
  subdivision,
  grouping: told(
    v.pipe(v.string(), v.maxLength(MAX_GROUPING), v.regex(/\S/)),
    'Strokes on successive partials: R L hands, K F feet, - rest, R+K unison, lR flam, llR drag',
  ),
  cycle: v.exactOptional(
    told(partials, "Partials after which the phrasing repeats; the grouping's length unless given"),
  ),
  swing: v.exactOptional(swing),
} as const;

const layer = shape({
  name,
  muted: v.exactOptional(told(v.boolean(), 'true keeps the changes but lays none of them on')),
  changes: v.exactOptional(v.pipe(v.array(change), v.maxLength(MAX_CHANGES))),
});

/** The shape of a phrase file. What depends on more than one key is checked by checkDraft. */
export const phraseFileSchema: v.GenericSchema<PhraseFile> = shape({
  ...HEAD,
  layers: list(layer, MAX_LAYERS),
});
/** The same of its parts, to be checked one by one. */
export const headSchema = shape({ ...HEAD, layers: list(v.unknown(), MAX_LAYERS) });
export const layerSchema: v.GenericSchema<LayerFile> = layer;
