import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mendedGrouping, parseGrouping } from '../../../src/phrase/check/parse-grouping';

const parsed = (text: string) => {
  const found = parseGrouping(text);
  if (!found.ok) throw new Error(found.errors.map((error) => error.message).join('\n'));
  return found.value.map(
    (step) => step.map(({ limb, graces }) => graces.join('').toLowerCase() + limb).join('+') || '-',
  );
};
const errors = (text: string) => {
  const found = parseGrouping(text);
  return found.ok ? [] : found.errors.map(({ code, place }) => [code, place]);
};

describe('parseGrouping', () => {
  it('reads limbs, rests, unisons, flams and drags as printed rudiments write them', () => {
    expect(parsed('R L K F - R+K lR rrL llR+F+K')).toEqual([
      'R',
      'L',
      'K',
      'F',
      '-',
      'R+K',
      'lR',
      'rrL',
      'llR+F+K',
    ]);
  });

  it('lawSpaces: only the order of the steps counts, not the space between', () => {
    const steps = fc.array(fc.constantFrom('R', 'L', '-', 'lR', 'R+K'), { minLength: 1 });
    const space = fc.constantFrom(' ', '  ', '\n', '\t');
    fc.assert(
      fc.property(steps, space, (found, between) => {
        expect(parsed(`${between}${found.join(between)}${between}`)).toEqual(found);
      }),
    );
  });

  it.each([
    ['R L X', [['GROUPING_TOKEN', 'grouping[2]']]],
    ['RLRR', [['GROUPING_TOKEN', 'grouping[0]']]],
    ['R lllR', [['GROUPING_TOKEN', 'grouping[1]']]],
    ['R+', [['GROUPING_TOKEN', 'grouping[0]']]],
    ['r', [['GROUPING_TOKEN', 'grouping[0]']]],
    ['R+-', [['GROUPING_TOKEN', 'grouping[0]']]],
    ['L R+K+R', [['LIMB_TWICE', 'grouping[1]']]],
    ['lK', [['GRACE_ON_FOOT', 'grouping[0]']]],
    [
      'x R y',
      [
        ['GROUPING_TOKEN', 'grouping[0]'],
        ['GROUPING_TOKEN', 'grouping[2]'],
      ],
    ],
  ])('says what is wrong with %j, and at which step', (text, expected) => {
    expect(errors(text)).toEqual(expected);
  });
});

describe('mendedGrouping', () => {
  it.each([
    ['RLLR', 'R L L R'],
    ['RLLRLL RLRL', 'R L L R L L R L R L'],
    ['rlk f', 'R L K F'],
    ['RlRllR-R+K', 'R lR llR - R+K'],
    ['r+k', 'R+K'],
  ])('sets %j apart as %j', (text, mended) => {
    expect(mendedGrouping(text)).toBe(mended);
  });

  it.each(['R L  lR', ' R+K -', 'RLQ', 'lllR', 'R+', 'lK', ''])('leaves %j as it is', (text) => {
    expect(mendedGrouping(text)).toBe(text);
  });

  it('lawOnce: what is mended needs no mending, and what is right is left alone', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'RLKFrlkf+- x') }), (text) => {
        const mended = mendedGrouping(text);
        expect(mendedGrouping(mended)).toBe(mended);
        if (parseGrouping(text).ok) expect(mended).toBe(text);
      }),
    );
  });
});
