import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM } from '../../../src/kit/built-in-kits';
import { createOpeningWatch } from '../../../src/kit/faults/opening-watch';
import type { KitFault } from '../../../src/kit/faults/kit-fault';
import type { Kit } from '../../../src/kit/kit';

const HAT = 42;
const PEDAL = 44;
const kit: Kit = {
  ...EDGE_AND_RIM,
  pads: EDGE_AND_RIM.pads.map((pad) => (pad.note === HAT ? { ...pad, followsOpening: true } : pad)),
};

/** What is said after these: a value of the controller, or a note struck. */
function saidAfter(...course: readonly ({ value: number } | { note: number })[]): string[] {
  const watch = createOpeningWatch(kit);
  for (const one of course) {
    if ('value' in one) watch.moved(one.value);
    else watch.struck(one.note);
  }
  return watch.report().map(({ sentence }) => sentence);
}
const times = (count: number, note: number) => Array.from({ length: count }, () => ({ note }));
/** Chicks between which the controller goes to and fro. */
const chicks = (count: number, low: number, high: number) =>
  Array.from({ length: count }, (_, i) => [
    { value: i % 2 === 0 ? low : high },
    { note: PEDAL },
  ]).flat();

describe('the watch over the controller of the hi-hat', () => {
  it.each([
    ['ten strokes before it speaks', saidAfter(...times(10, HAT)), /has not spoken in 10/],
    ['nine', saidAfter(...times(9, HAT)), undefined],
    ['ten chicks, which do not need it', saidAfter(...times(10, PEDAL)), undefined],
    [
      'ten strokes, the lowest value among them',
      saidAfter({ value: 0 }, ...times(10, HAT)),
      undefined,
    ],
    ['12 chicks at one value', saidAfter({ value: 90 }, ...times(12, PEDAL)), /12 times/],
    [
      '11 chicks at one value',
      saidAfter({ value: 0 }, { value: 90 }, ...times(11, PEDAL)),
      undefined,
    ],
    [
      '12 chicks at one value that is sent again',
      saidAfter({ value: 90 }, ...times(6, PEDAL), { value: 90 }, ...times(6, PEDAL)),
      /12 times/,
    ],
    [
      '12 chicks at one value, and moves before and after',
      saidAfter({ value: 0 }, { value: 90 }, ...times(12, PEDAL), { value: 0 }, { note: PEDAL }),
      /12 times/,
    ],
    ['8 chicks over 31 of 127', saidAfter(...chicks(8, 60, 91)), /only 24 %/],
    ['8 chicks over 32 of 127', saidAfter(...chicks(8, 60, 92)), undefined],
    ['7 chicks over 31 of 127', saidAfter(...chicks(7, 60, 91)), undefined],
  ])('after %s', (_, said, expected) => {
    expect(said).toEqual(expected ? [expect.stringMatching(expected)] : []);
  });

  /** Nobody sees the foot: half of the players who press a closed hi-hat along were told "it is stuck". */
  it.each([
    ['has not spoken', times(10, HAT)],
    ['stayed where it was', [{ value: 90 }, ...times(12, PEDAL)]],
    ['of its range', chicks(8, 60, 91)],
  ] as const)(
    'says "%s" as what was seen, and what it means only if the foot moved',
    (seen, course) => {
      const watch = createOpeningWatch(kit);
      for (const one of course) {
        if ('value' in one) watch.moved(one.value);
        else watch.struck(one.note);
      }
      const [{ sentence, advice }] = watch.report() as [KitFault];
      expect(sentence).toContain(seen);
      expect(sentence).not.toMatch(/stuck|so open|told apart|close together/);
      expect(advice).toMatch(/^If your foot (moved|came up|went all the way).*: (look|calibrate)/);
    },
  );
});
