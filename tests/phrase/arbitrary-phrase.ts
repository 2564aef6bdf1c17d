import * as fc from 'fast-check';
import { LEVELS } from '../../src/phrase/model/level';
import { LIMBS } from '../../src/phrase/model/limb';
import { checkPhrase } from '../../src/phrase/file/parse-phrase';
import type { Phrase, Selector } from '../../src/phrase/model/phrase';
import type { ChangeFile, LayerFile, PhraseFile } from '../../src/phrase/model/phrase-file';
import { VOICES } from '../../src/phrase/model/voice';

const LAYER_NAMES = ['Sticking', 'Accents', 'Toms', 'Ghosts', 'Pickup', 'Feet'] as const;
const METERS = ['4/4', '3/4', '5/4', '7/8', '5/8', '6/8', '9/8', '12/8', '7/16', '9/16'] as const;
const SWINGS = ['1:1', '3:2', '2:1', '5:2', '3:1', '4:1'] as const;

const limb = fc.constantFrom(...LIMBS);
const voice = fc.constantFrom(...VOICES);
const level = fc.constantFrom(...LEVELS);
const grace = fc.constantFrom('none' as const, 'flam' as const, 'drag' as const);

/** One step of a grouping: a rest, a stroke with or without grace notes, or two limbs together. */
const step = fc.oneof(
  { weight: 8, arbitrary: limb },
  { weight: 2, arbitrary: fc.constant('-') },
  { weight: 2, arbitrary: fc.constantFrom('lR', 'rL', 'llR', 'rrL', 'rlR') },
  { weight: 2, arbitrary: fc.constantFrom('R+K', 'L+K', 'R+L', 'R+F', 'K+F', 'lR+K', 'R+L+K+F') },
);

const some = (cycle: number, most = 6) =>
  fc.uniqueArray(fc.integer({ min: 1, max: cycle }), {
    minLength: 1,
    maxLength: Math.min(most, cycle),
  });

/** Optional keys that are absent rather than undefined. */
const keys = <T extends object>(entries: { [K in keyof T]-?: fc.Arbitrary<NonNullable<T[K]>> }) =>
  fc.record(entries, { requiredKeys: [] }) as fc.Arbitrary<Partial<T>>;

function where(cycle: number): fc.Arbitrary<Selector> {
  const simple = {
    limb,
    positions: some(cycle),
    nth: some(3, 2),
    beats: fc.uniqueArray(fc.constantFrom('1', '2', '1 1/2', '2 1/4', '1 2/3'), {
      minLength: 1,
      maxLength: 3,
    }),
    every: fc
      .integer({ min: 2, max: 9 })
      .chain((partials) => fc.record({ partials: fc.constant(partials), at: some(partials, 3) })),
    voice,
    level,
    grace: fc.boolean(),
  };
  const flat = keys<Selector>({ limb: simple.limb, positions: simple.positions } as never);
  const rich = keys<Selector>({
    ...simple,
    not: flat,
    any: fc.array(flat, { minLength: 1, maxLength: 2 }),
  });
  return fc.oneof({ weight: 3, arbitrary: flat }, { weight: 2, arbitrary: rich });
}

function change(cycle: number): fc.Arbitrary<ChangeFile> {
  const set = keys({ voice, level, limb, silent: fc.boolean(), grace }).map((found) =>
    Object.keys(found).length > 0 ? found : { level: 'accent' as const },
  );
  const stroke = (place: 'position' | 'partialsBefore', most: number) =>
    fc.uniqueArray(
      fc.record(
        { [place]: fc.integer({ min: 1, max: most }), limb, voice, level },
        { requiredKeys: [place, 'limb'] },
      ),
      {
        minLength: 1,
        maxLength: 3,
        selector: (found) => `${String(found[place])}${String(found.limb)}`,
      },
    );
  return fc.oneof(
    { weight: 5, arbitrary: fc.record({ where: where(cycle), set }) },
    { weight: 1, arbitrary: fc.record({ pickup: stroke('partialsBefore', 4) }) },
    { weight: 1, arbitrary: fc.record({ add: stroke('position', cycle) }) },
    {
      weight: 1,
      arbitrary: fc
        .tuple(fc.integer({ min: 1, max: 9 }), fc.nat(8), where(cycle), fc.boolean())
        .map(([accentEvery, from, only, narrowed]) => ({
          accentEvery,
          from: (from % accentEvery) + 1,
          ...(narrowed && { where: only }),
        })),
    },
    { weight: 1, arbitrary: fc.record({ displace: fc.integer({ min: -3, max: 3 }) }) },
    { weight: 1, arbitrary: fc.record({ subdivision: fc.integer({ min: 1, max: 12 }) }) },
    { weight: 1, arbitrary: fc.record({ swing: fc.constantFrom(...SWINGS) }) },
  ) as fc.Arbitrary<ChangeFile>;
}

interface Seed {
  readonly file: PhraseFile;
  readonly wanted: readonly (readonly ChangeFile[])[];
}

/**
 * Layers as many as were wanted, each keeping the changes that the phrase so far can take: what a
 * change may do depends on everything before it, and throwing whole phrases away would leave only
 * plain ones.
 */
function grow({ file, wanted }: Seed): PhraseFile {
  let grown: PhraseFile = file;
  wanted.forEach((changes, i) => {
    const layers = [...grown.layers];
    layers[i] = { name: LAYER_NAMES[i % LAYER_NAMES.length]! };
    grown = { ...grown, layers };
    for (const candidate of changes) {
      const layer: LayerFile = grown.layers[i]!;
      const tried = grown.layers.with(i, {
        ...layer,
        changes: [...(layer.changes ?? []), candidate],
      });
      if (checkPhrase({ ...grown, layers: tried }).ok) grown = { ...grown, layers: tried };
    }
  });
  return grown;
}

/** The file with one layer muted, where what is left is a phrase. */
function mutedAt(file: PhraseFile, at: number): PhraseFile {
  const layers = file.layers.map((layer, i) => (i === at ? { ...layer, muted: true } : layer));
  return checkPhrase({ ...file, layers }).ok ? { ...file, layers } : file;
}

/** A phrase file that parses, with all kinds of change. */
export function arbitraryPhraseFile(): fc.Arbitrary<PhraseFile> {
  const seed = fc
    .record({
      steps: fc.array(step, { minLength: 1, maxLength: 9 }),
      cycle: fc.option(fc.integer({ min: 1, max: 24 }), { nil: undefined }),
      meter: fc.constantFrom(...METERS),
      tempoBpm: fc.integer({ min: 30, max: 300 }),
      subdivision: fc.integer({ min: 1, max: 12 }),
      swing: fc.option(fc.constantFrom(...SWINGS), { nil: undefined }),
      title: fc.constantFrom('Tide Table', 'Slipway', 'Night Ferry'),
    })
    .chain(({ steps, cycle, swing, ...head }) => {
      const withStroke = steps.every((found) => found === '-') ? ['R', ...steps] : steps;
      const partials = Math.max(
        cycle ?? withStroke.length,
        withStroke.findIndex((found) => found !== '-') + 1,
      );
      const file: PhraseFile = {
        ...head,
        grouping: withStroke.join(' '),
        ...(partials !== withStroke.length && { cycle: partials }),
        ...(swing !== undefined && head.meter.endsWith('/4') && { swing }),
        layers: [{ name: 'Sticking' }],
      };
      return fc.record({
        file: fc.constant(file),
        wanted: fc.array(fc.array(change(partials), { minLength: 1, maxLength: 4 }), {
          minLength: 1,
          maxLength: 5,
        }),
      });
    });
  return fc
    .tuple(seed.map(grow), fc.option(fc.nat(4), { freq: 3, nil: undefined }))
    .map(([file, muted]) => (muted === undefined ? file : mutedAt(file, muted)));
}

/** A checked phrase, with all kinds of change. */
export const arbitraryPhrase = (): fc.Arbitrary<Phrase> =>
  arbitraryPhraseFile().map((file) => {
    const checked = checkPhrase(file);
    if (!checked.ok) throw new Error(checked.errors.map((error) => error.message).join('\n'));
    return checked.value;
  });
