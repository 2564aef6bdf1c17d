import { describe, expect, it } from 'vitest';
import { RemarkLine, type Remark } from '../../src/coach/remark-line';
import type { FindingCode } from '../../src/coach/wording';

const remark = (code: FindingCode, finding: string = code): Remark => ({
  code,
  finding,
  advice: '',
});

/** What is said after each bar, when so and so is found. */
function said(
  found: readonly (readonly [bar: number, remark: Remark])[],
  every = 8,
  passes = 0,
): (string | undefined)[] {
  const line = new RemarkLine();
  return found.map(([bar, one]) => line.next(one, bar, every, passes)?.finding);
}

describe('the line beside the lane', () => {
  it('stays for eight bars', () => {
    const found = [1, 3, 8, 9].map((bar) => [bar, remark('spread', `at ${bar}`)] as const);
    expect(said(found)).toEqual(['at 1', 'at 1', 'at 1', 'at 9']);
  });

  it.each([
    [0, 8],
    [1, 16],
    [2, 32],
    [3, 32],
  ])('stays longer after passes: %d of them, %d bars', (passes, bars) => {
    const found = [1, bars, bars + 1].map((bar) => [bar, remark('spread', `at ${bar}`)] as const);
    expect(said(found, 8, passes)).toEqual(['at 1', 'at 1', `at ${bars + 1}`]);
  });

  it('says at once what is decided now', () => {
    expect(
      said([
        [1, remark('undecided')],
        [2, remark('limb off')],
      ]),
    ).toEqual(['undecided', 'limb off']);
  });

  it.each<FindingCode>(['other tempo', 'lost place', 'voice mapped'])(
    'says at once that there is %s, and when it is over',
    (urgent) => {
      expect(
        said([
          [1, remark('spread')],
          [2, remark(urgent, 'first')],
          [3, remark(urgent, 'second')],
          [4, remark('even')],
          [5, remark('spread')],
        ]),
      ).toEqual(['spread', 'first', 'first', 'even', 'even']);
    },
  );

  it('says nothing else where it is to wait for the end of the take', () => {
    expect(
      said(
        [
          [1, remark('spread')],
          [9, remark('limb off')],
          [17, remark('lost place')],
          [18, remark('spread')],
        ],
        Infinity,
      ),
    ).toEqual([undefined, undefined, 'lost place', undefined]);
  });

  it('begins anew with a take', () => {
    const line = new RemarkLine();
    line.next(remark('spread'), 12, 8, 0);
    line.begin();
    expect(line.next(remark('even'), 1, 8, 0)?.code).toBe('even');
  });
});
