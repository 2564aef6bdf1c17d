import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM } from '../../../src/kit/built-in-kits';
import type { HiHatOpening, Kit } from '../../../src/kit/kit';
import { createKitReader } from '../../../src/kit/kit-reader';
import { hiHatPedal } from '../../../src/kit/learn/hi-hat-pedal';
import type { PadStrike } from '../../../src/kit/learn/pad-strike';
import { VOICES } from '../../../src/phrase/model/voice';

const strike = (
  note: number,
  openingValue: number | undefined,
  openingBefore?: readonly [number, number],
): PadStrike => ({ timeMs: 0, note, velocity: 90, openingValue, openingBefore });
const pedal = (closed: PadStrike, open: PadStrike, inUse?: Kit) =>
  hiHatPedal({ closed, open }, inUse);
/** A hi-hat of one note, read by the app itself. */
const readAs = (opening: HiHatOpening, value: number) => {
  const pad = {
    note: 8,
    name: 'hi-hat',
    voice: 'hi-hat closed',
    group: 'hi-hat',
    followsOpening: true,
  } as const;
  const reader = createKitReader({ title: 'x', pads: [pad], opening });
  reader.read(0xb9, opening.controller, value);
  reader.read(0x99, 8, 90);
  return VOICES[reader.voiceNumber];
};
const value = fc.integer({ min: 0, max: 127 });
const reversed = (opening: HiHatOpening['highMeans']) => (opening === 'open' ? 'closed' : 'open');

describe('what a hi-hat tells', () => {
  it('reads the two strokes back as they were asked for, whatever the controller means', () =>
    fc.assert(
      fc.property(value, value, (closed, open) => {
        const { opening } = pedal(strike(8, closed), strike(8, open));
        fc.pre(opening !== undefined);
        expect(readAs(opening, closed)).toBe('hi-hat closed');
        expect(readAs(opening, open)).toBe('hi-hat open');
      }),
    ));

  it('turned upside down, tells the same the other way round', () =>
    fc.assert(
      fc.property(value, value, (closed, open) => {
        const up = pedal(strike(8, closed), strike(8, open));
        const down = pedal(strike(8, 127 - closed), strike(8, 127 - open));
        expect(down.tells).toBe(up.tells);
        expect(down.controller).toBe(up.controller);
        if (!up.opening) return;
        expect(down.opening!.highMeans).toBe(reversed(up.opening.highMeans));
        expect(down.opening!.openFrom).toBeCloseTo(up.opening.openFrom, 12);
      }),
    ));

  it.each([
    [40, 56, 'moves', 'controller'],
    [40, 55, 'stuck', 'nothing'],
    [56, 40, 'moves', 'controller'],
    [55, 40, 'stuck', 'nothing'],
    [64, 64, 'stuck', 'nothing'],
  ] as const)('closed at %i, open at %i: %s', (closed, open, controller, tells) => {
    expect(pedal(strike(8, closed), strike(8, open))).toMatchObject({ controller, tells });
  });

  it.each([
    [0, 32, false],
    [0, 31, true],
    [127, 95, false],
    [127, 96, true],
  ])('from %i to %i: says that this is little, %s', (closed, open, isLittle) => {
    const { remarks } = pedal(strike(8, closed), strike(8, open));
    expect(remarks.some((remark) => remark.includes('close together'))).toBe(isLittle);
  });

  it('leaves it to the notes where they differ, and says what is stuck', () => {
    expect(pedal(strike(42, undefined), strike(46, undefined))).toEqual({
      tells: 'notes',
      controller: 'silent',
      isReversed: false,
      opening: undefined,
      remarks: [],
    });
    const stuck = pedal(strike(42, 64), strike(46, 64));
    expect(stuck.tells).toBe('notes');
    expect(stuck.remarks.join()).toMatch(/stayed at 64 in both.*notes all the same/);
    expect(pedal(strike(8, 64), strike(8, 64)).remarks.join()).toMatch(
      /stayed at 64 in both.*note 8.*If your foot went all the way/,
    );
    expect(pedal(strike(8, undefined), strike(8, undefined)).remarks.join()).toMatch(/cable/);
  });

  it('says of a controller that moved, if little, how far', () => {
    const said = (one: number, other: number) =>
      pedal(strike(8, one), strike(8, other)).remarks.join();
    expect(said(40, 55)).toMatch(/went only from 40 to 55.*note 8/);
    expect(said(40, 55)).not.toContain('stayed');
    expect(said(64, 67)).not.toContain('stayed');
    expect(said(64, 66)).toContain('stayed at 66');
  });

  // The map in use reads note 42 as closed, 46 as open, and a high controller as closed.
  it.each([
    [42, 46, 120, 4, false],
    [46, 42, 120, 4, true],
    [42, 46, 4, 120, true],
    [8, 8, 120, 4, false],
    [8, 8, 4, 120, true],
  ])(
    'notes %i and %i, controller %i and %i: reversed %s',
    (closed, open, low, high, isReversed) => {
      const found = pedal(strike(closed, low), strike(open, high), EDGE_AND_RIM);
      expect(found.isReversed).toBe(isReversed);
      expect(found.remarks.some((remark) => remark.includes('reversed'))).toBe(isReversed);
      expect(pedal(strike(closed, low), strike(open, high)).isReversed).toBe(false);
    },
  );

  // A pedal that rests says nothing, so it may be down before the page has heard of it.
  it.each<[readonly [number, number] | undefined, number | undefined, string | undefined]>([
    [[0, 127], 0, 'closed'],
    [[3, 110], 3, 'closed'],
    [[20, 124], 124, 'open'],
    // A switch: it told where it went and no more.
    [[0, 0], 0, 'closed'],
    [[15, 15], 15, 'closed'],
    [[16, 16], 16, undefined],
    [[112, 112], 112, 'open'],
    [[111, 111], 111, undefined],
    [[63, 65], 64, undefined],
    [undefined, undefined, undefined],
  ])('down before it spoke, then %j to end at %s: high means %s', (before, end, highMeans) => {
    const found = pedal(strike(8, undefined), strike(8, end, before));
    expect(found.opening?.highMeans).toBe(highMeans);
  });
});
