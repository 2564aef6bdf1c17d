import { describe, expect, it } from 'vitest';
import type { CauseClass } from '../../../src/coach/evidence/causes';
import { surelyAbove, whereOf } from '../../../src/coach/faults/where';

const range = (from: number, to: number) => Array.from({ length: to - from }, (_, i) => from + i);
/** Notes 0 to 19 are the left hand's, 20 to 99 the right hand's; 0 to 9 are position 3. */
const all = range(0, 100);
const classes: CauseClass[] = [
  {
    group: range(0, 20),
    rest: range(20, 100),
    causes: [{ kind: 'limb', name: 'left hand', notes: range(0, 20) }],
    opposite: [{ kind: 'limb', name: 'right hand', notes: range(20, 100) }],
  },
  {
    group: range(0, 10),
    rest: range(10, 100),
    causes: [{ kind: 'position', name: 'position 3', notes: range(0, 10) }],
    opposite: [],
  },
];
const ERROR_RATE = 0.02;
const where = (happensTo: readonly number[], usual = 0.1, errorRate = ERROR_RATE) =>
  whereOf({ classes, errorRate }, all, (at) => happensTo.includes(at), usual).map(
    ({ cause, times, of }) => `${cause?.name ?? 'all'}: ${times} of ${of}`,
  );

describe('where something happens', () => {
  it.each<[string, readonly number[], readonly string[]]>([
    ['nowhere', [], []],
    ['at one position', range(0, 7), ['position 3: 7 of 10']],
    ['to one hand', range(4, 16), ['left hand: 12 of 20']],
    ['everywhere', all.filter((at) => at % 4 === 0), ['all: 25 of 100']],
    ['seldom, everywhere', all.filter((at) => at % 20 === 0), []],
    ['twice', [0, 1], []],
    ['thrice, at one position of ten', [0, 1, 2], ['position 3: 3 of 10']],
    [
      'at one position, and everywhere else a little',
      [...range(0, 9), ...range(10, 100).filter((at) => at % 4 === 0)],
      ['position 3: 9 of 10', 'all: 22 of 90'],
    ],
  ])('%s', (_, happensTo, places) => {
    expect(where(happensTo)).toEqual(places);
  });

  it('needs more where less error is allowed', () => {
    // Three of ten against none of ninety: twice the gain in log likelihood is 14.73 (ln of .3, .7, .03 and .97 [C]), 3.838 standard
    // errors, a chance of 1.24e-4; times 40 causes 0.00496.
    const thrice = [0, 1, 2];
    expect(where(thrice, 0.1, 0.0056)).toEqual(['position 3: 3 of 10']);
    expect(where(thrice, 0.1, 0.0043)).toEqual([]);
  });

  it('lists those to which it happened, and all to which it could', () => {
    const [place] = whereOf({ classes, errorRate: ERROR_RATE }, all, (at) => at < 7, 1);
    expect(place!.notes).toEqual(range(0, 7));
    expect(place!.group).toEqual(range(0, 10));
    const [rest] = whereOf({ classes, errorRate: ERROR_RATE }, all, (at) => at % 4 === 0, 0.1);
    expect(rest!.notes).toEqual(all.filter((at) => at % 4 === 0));
    expect(rest!.group).toEqual(all);
  });

  it('is not told of those to whom it happens less than to the rest', () => {
    const [first] = classes;
    const leftOnly = [{ ...first!, opposite: [] }];
    const places = whereOf(
      { classes: leftOnly, errorRate: ERROR_RATE },
      all,
      (at) => at >= 20 && at % 2 === 0,
      0.1,
    );
    expect(places.map(({ cause, times, of }) => [cause?.name, times, of])).toEqual([
      [undefined, 40, 100],
    ]);
  });

  it('names three causes at most, and all that is left', () => {
    const four = [0, 20, 40, 60].map((from): CauseClass => {
      const own = range(from, from + 10);
      const notes = { kind: 'position', name: `position ${from}`, notes: own } as const;
      return { group: own, rest: [], causes: [notes], opposite: [] };
    });
    const happens = (at: number) => at < 70 && at % 20 < 10;
    const places = whereOf({ classes: four, errorRate: ERROR_RATE }, all, happens, 0.05);
    expect(places.map(({ cause }) => cause?.kind)).toEqual([
      'position',
      'position',
      'position',
      undefined,
    ]);
    expect(places.at(-1)).toMatchObject({ times: 10, of: 70 });
  });
});

it.each([
  [2, 8, false],
  [3, 7, false],
  [3, 8, true],
])('%d of %d are surely above a twelfth: %s', (times, of, sure) => {
  expect(surelyAbove(1 / 12, times, of)).toBe(sure);
});

it('two are a handful, though 95 % certainly above a twentieth: of 8 from 7.1 % on', () => {
  expect(surelyAbove(1 / 20, 2, 8)).toBe(false);
  expect(surelyAbove(1 / 20, 3, 8)).toBe(true);
});
