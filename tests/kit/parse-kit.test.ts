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
    ['not-json', '', '{"title": '],
    ['shape', '', '5'],
    ['shape', 'title', JSON.stringify({ ...kit(bow), title: '' })],
    ['shape', 'pads', JSON.stringify(kit())],
    ['shape', 'pads[0].note', JSON.stringify(kit({ ...bow, note: 128 }))],
    ['shape', 'pads[0].note', JSON.stringify(kit({ ...bow, note: 1.5 }))],
    ['shape', 'pads[1].voice', JSON.stringify(kit(bow, { ...bow, note: 1, voice: 'gong' }))],
    ['shape', 'pads[0].colour', JSON.stringify(kit({ ...bow, colour: 1 }))],
    ['shape', 'pads[0].ghostMax', JSON.stringify(kit({ ...bow, ghostMax: 0 }))],
    [
      'shape',
      'opening.highMeans',
      JSON.stringify({ ...kit(bow), opening: { ...opening, highMeans: 'up' } }),
    ],
    ['note-twice', 'pads[1].note', JSON.stringify(kit(bow, { ...bow, name: 'edge' }))],
    ['levels', 'pads[0]', JSON.stringify(kit({ ...bow, ghostMax: 95 }))],
    [
      'group',
      'crosstalk[0]',
      JSON.stringify({ ...kit(bow), crosstalk: [mask('hi-hat', 'crash')] }),
    ],
    [
      'group',
      'crosstalk[0]',
      JSON.stringify({ ...kit(bow), crosstalk: [mask('hi-hat', 'hi-hat')] }),
    ],
    [
      'shape',
      'crosstalk[0].upToPercent',
      JSON.stringify({ ...kit(bow), crosstalk: [{ ...mask('hi-hat', 'crash'), upToPercent: 61 }] }),
    ],
    ['levels', 'pads[0]', JSON.stringify(kit({ ...bow, ghostMax: 60, accentMin: 60 }))],
  ])('%s at "%s"', (code, place, text) => {
    const result = parseKit(text);
    const first = result.ok ? undefined : result.errors[0];
    expect(first).toMatchObject({ code, place });
    expect(first?.message).toMatch(/^[A-Z].*; .*\.$/);
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
    let refused = 0;
    fc.assert(
      fc.property(fc.oneof(kits, broken), (file) => {
        const ours = checkKit(file);
        const shapeHolds = ours.ok || ours.errors.every(({ code }) => code !== 'shape');
        if (!shapeHolds) refused++;
        expect(accepts(file)).toBe(shapeHolds);
      }),
      { numRuns: 300 },
    );
    expect(refused).toBeGreaterThan(20);
  });
});
