import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromStructuredJson, structuredJson } from '../../../src/store/backup/structured-json';

const anything = fc.anything({
  withBigInt: true,
  withDate: true,
  withTypedArray: true,
  withSparseArray: false,
  withNullPrototype: false,
});

describe('the text of a record', () => {
  it('says all that JSON cannot, and reads back as it was', () => {
    fc.assert(
      fc.property(anything, (value) => {
        const text = structuredJson(value);
        // Columns of big numbers are in no table.
        fc.pre(text !== undefined);
        expect(JSON.parse(text)).toBeDefined();
        expect(fromStructuredJson(text)).toStrictEqual(value);
      }),
    );
  });

  it.each([
    ['{"#":"undefined"}', undefined],
    ['[NaN, a minus zero]', [NaN, -0, Infinity]],
    ['columns', { a: Float64Array.of(1.5, NaN, -0), b: Uint8Array.of(255) }],
    ['a key of the mark itself', { '#': 'Float64Array', is: [1] }],
    ['a key that is a prototype elsewhere', JSON.parse('{"__proto__":{"a":1},"b":2}')],
    ['half a surrogate pair', '\ud800'],
  ])('%s', (_, value) => {
    expect(fromStructuredJson(structuredJson(value)!)).toStrictEqual(value);
  });

  it('is the same whatever the order of the keys', () => {
    expect(structuredJson({ b: 1, a: { d: 2, c: 3 } })).toBe(
      structuredJson({ a: { c: 3, d: 2 }, b: 1 }),
    );
  });

  it('is none for what goes round in circles, or no text can hold', () => {
    const round: Record<string, unknown> = {};
    round['round'] = round;
    for (const value of [round, new Blob(['a']), new Map([[1, 2]]), () => 1])
      expect(structuredJson(value)).toBeUndefined();
  });

  it.each(['{"#":"Float64Array"}', '{"#":"Window"}', '{"#":"bigint","is":"x"}', '['])(
    'that says %s is none',
    (text) => {
      expect(() => fromStructuredJson(text)).toThrow();
    },
  );
});
