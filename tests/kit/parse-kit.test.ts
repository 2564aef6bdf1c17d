import { readFileSync } from 'node:fs';
import { toJsonSchema } from '@valibot/to-json-schema';
import { Ajv } from 'ajv';
import fc from 'fast-check';
import { format } from 'prettier';
import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM, GENERAL_MIDI } from '../../src/kit/built-in-kits';
import type { Kit } from '../../src/kit/kit';
import { KitFile } from '../../src/kit/kit-file';
import { checkKit, parseKit, writeKit } from '../../src/kit/parse-kit';
import { VOICES } from '../../src/phrase/model/voice';
import { runCount } from '../run-count';

const SCHEMA = new URL('../../shared/schemas/kit.schema.json', import.meta.url).pathname;
const bow = { note: 42, name: 'bow', voice: 'hi-hat closed', group: 'hi-hat' };
const opening = { controller: 4, highMeans: 'open', openFrom: 0.5 };
const mask = (struck: string, answers: string) => ({
  struck,
  answers,
  withinMs: 8,
  upToPercent: 30,
});
const kit = (...pads: object[]) => ({ title: 'Pilot house', opening, pads });

describe('parseKit', () => {
  it.each([
    ['TOO_LARGE', '', ' '.repeat(1_000_001)],
    ['NOT_JSON', '', ' '.repeat(1_000_000)],
    ['NOT_JSON', '', '{"title": '],
    ['SHAPE', '', '5'],
    ['SHAPE', 'title', JSON.stringify({ ...kit(bow), title: '' })],
    ['SHAPE', 'pads', JSON.stringify(kit())],
    ['SHAPE', 'pads[0].note', JSON.stringify(kit({ ...bow, note: 128 }))],
    ['SHAPE', 'pads[0].note', JSON.stringify(kit({ ...bow, note: 1.5 }))],
    ['SHAPE', 'pads[1].voice', JSON.stringify(kit(bow, { ...bow, note: 1, voice: 'gong' }))],
    ['SHAPE', 'pads[0].colour', JSON.stringify(kit({ ...bow, colour: 1 }))],
    ['SHAPE', 'pads[0].ghostMax', JSON.stringify(kit({ ...bow, ghostMax: 0 }))],
    [
      'SHAPE',
      'opening.highMeans',
      JSON.stringify({ ...kit(bow), opening: { ...opening, highMeans: 'up' } }),
    ],
    ['NOTE_TWICE', 'pads[1].note', JSON.stringify(kit(bow, { ...bow, name: 'edge' }))],
    ['LEVELS', 'pads[0]', JSON.stringify(kit({ ...bow, ghostMax: 95 }))],
    [
      'GROUP',
      'crosstalk[0]',
      JSON.stringify({ ...kit(bow), crosstalk: [mask('hi-hat', 'crash')] }),
    ],
    [
      'GROUP',
      'crosstalk[0]',
      JSON.stringify({ ...kit(bow), crosstalk: [mask('hi-hat', 'hi-hat')] }),
    ],
    [
      'SHAPE',
      'crosstalk[0].upToPercent',
      JSON.stringify({ ...kit(bow), crosstalk: [{ ...mask('hi-hat', 'crash'), upToPercent: 61 }] }),
    ],
    ['LEVELS', 'pads[0]', JSON.stringify(kit({ ...bow, ghostMax: 60, accentMin: 60 }))],
  ])('%s at "%s"', (code, place, text) => {
    const result = parseKit(text);
    const first = result.ok ? undefined : result.errors[0];
    expect(first).toMatchObject({ code, place });
    expect(first?.message).toMatch(/^[A-Z].*; .*\.$/);
  });

  const crash = { note: 49, name: 'edge', voice: 'crash', group: 'crash' };
  const pads = (count: number) => Array.from({ length: count }, (_, note) => ({ ...bow, note }));
  const withMask = (limit: object) => ({
    ...kit(bow, crash),
    crosstalk: [{ ...mask('hi-hat', 'crash'), ...limit }],
  });
  it.each([
    ['note', [0, 127], [-1, 128], (note: number) => kit({ ...bow, note })],
    ['name', [1, 100], [0, 101], (n: number) => kit({ ...bow, name: 'x'.repeat(n) })],
    ['ghostMax', [1, 94], [0, 95], (ghostMax: number) => kit({ ...bow, ghostMax })],
    ['accentMin', [51, 127], [50, 128], (accentMin: number) => kit({ ...bow, accentMin })],
    ['retriggerMs', [0, 100], [-0.1, 100.1], (ms: number) => kit({ ...bow, retriggerMs: ms })],
    [
      'openFrom',
      [0, 1],
      [-0.01, 1.01],
      (openFrom: number) => ({ ...kit(bow), opening: { ...opening, openFrom } }),
    ],
    ['withinMs', [0, 50], [-0.1, 50.1], (withinMs: number) => withMask({ withinMs })],
    ['upToPercent', [0, 60], [-0.1, 60.1], (upToPercent: number) => withMask({ upToPercent })],
    ['number of pads', [1, 128], [0], (count: number) => kit(...pads(count))],
  ])('takes %s up to its limits and no farther', (_, within, beyond, file) => {
    for (const value of within) expect(checkKit(file(value)).ok, String(value)).toBe(true);
    for (const value of beyond) expect(checkKit(file(value)).ok, String(value)).toBe(false);
  });

  it('tells the first 20 faults', () => {
    const faults = (count: number) => {
      const result = checkKit(kit(...pads(count).map((one) => ({ ...one, note: 128 }))));
      return result.ok ? 0 : result.errors.length;
    };
    expect([19, 20, 21].map(faults)).toEqual([19, 20, 20]);
  });

  it('names what was found and what was expected', () => {
    const result = checkKit({ ...kit(bow), opening: { ...opening, highMeans: 'up' } });
    expect(!result.ok && result.errors[0]!.message).toBe(
      'Found "up", expected one of "open", "closed"; correct it.',
    );
  });
});

const pad = fc.record(
  {
    note: fc.nat(127),
    name: fc.string({ minLength: 1, maxLength: 20 }),
    voice: fc.constantFrom(...VOICES),
    group: fc.string({ minLength: 1, maxLength: 20 }),
    ghostMax: fc.integer({ min: 1, max: 60 }),
    accentMin: fc.integer({ min: 61, max: 127 }),
    retriggerMs: fc.integer({ min: 0, max: 100 }),
    followsOpening: fc.boolean(),
  },
  { requiredKeys: ['note', 'name', 'voice', 'group'] },
);
const kits: fc.Arbitrary<Kit> = fc.record({
  title: fc.string({ minLength: 1, maxLength: 20 }),
  opening: fc.record({
    controller: fc.nat(127),
    highMeans: fc.constantFrom('open', 'closed'),
    openFrom: fc.double({ min: 0, max: 1, noNaN: true }).map((share) => share + 0),
  }),
  pads: fc.uniqueArray(pad, { minLength: 1, maxLength: 20, selector: ({ note }) => note }),
});

describe('writeKit', () => {
  it('there and back is the same kit', () => {
    fc.assert(
      fc.property(kits, (one) => {
        expect(parseKit(writeKit(one))).toEqual({ ok: true, value: one });
      }),
    );
  });

  it('there and back is the same for the built-in kits', () => {
    for (const one of [GENERAL_MIDI, EDGE_AND_RIM])
      expect(parseKit(writeKit(one))).toEqual({ ok: true, value: one });
  });
});

describe('shared/schemas/kit.schema.json', () => {
  it('is the shape that parseKit checks; `npx vitest -u` writes it anew', async () => {
    const schema = JSON.stringify(toJsonSchema(KitFile));
    await expect(await format(schema, { parser: 'json', printWidth: 100 })).toMatchFileSnapshot(
      SCHEMA,
    );
  });

  it('agrees with a JSON Schema validator (ajv) on sound and on broken files', () => {
    const accepts = new Ajv({ strict: false }).compile(JSON.parse(readFileSync(SCHEMA, 'utf8')));
    const broken = fc
      .tuple(kits, fc.constantFrom('title', 'opening', 'pads'), fc.jsonValue())
      .map(([one, key, value]) => ({ ...one, [key]: value }));
    const runs = runCount(300);
    let refused = 0;
    fc.assert(
      fc.property(fc.oneof(kits, broken), (file) => {
        const ours = checkKit(file);
        const shapeHolds = ours.ok || ours.errors.every(({ code }) => code !== 'SHAPE');
        if (!shapeHolds) refused++;
        expect(accepts(file)).toBe(shapeHolds);
      }),
      { numRuns: runs },
    );
    expect(refused).toBeGreaterThan(runs / 15);
  });
});
