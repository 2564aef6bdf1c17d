import { describe, expect, it } from 'vitest';
import {
  bpmText,
  countText,
  durationText,
  figureText,
  offsetText,
  percentText,
  sideOf,
  wholePercentText,
} from '../../../src/view/figures/format';
import { figures } from '../sample-stats';

describe('figures as text', () => {
  it('show an en dash, never 0, where a figure is undefined', () => {
    expect(figureText(undefined, 1)).toBe('–');
    expect(offsetText(undefined)).toBe('–');
    expect(percentText(undefined)).toBe('–');
    expect(wholePercentText(undefined)).toBe('–');
    expect(countText(undefined)).toBe('–');
    expect(countText(figures({ count: 0, asWritten: undefined }))).toBe('–');
    expect(sideOf(undefined)).toBeUndefined();
  });

  it.each([
    [3.2, 0, '+3', 'late'],
    [-3.2, 0, '−3', 'early'],
    [0.4, 0, '0', undefined],
    [-0.4, 0, '0', undefined],
    [-0.4, 1, '−0.4', 'early'],
    [-0.04, 1, '0.0', undefined],
    [12.35, 1, '+12.3', 'late'],
    [0, 1, '0.0', undefined],
  ] as const)('an offset of %d ms with %i decimals is %s, %s', (ms, decimals, text, side) => {
    expect(offsetText(ms, decimals)).toBe(text);
    expect(sideOf(ms, decimals)).toBe(side);
  });

  it('say 100 % only when it is all of them', () => {
    expect(percentText(1)).toBe('100\u00a0%');
    expect(percentText(0.9999)).toBe('99\u00a0%');
    // 0.29 * 100 is 28.999999999999996 in doubles.
    expect(percentText(0.29)).toBe('29\u00a0%');
  });

  it('count notes, minutes and beats', () => {
    expect(countText(figures({ count: 20, asWritten: 0.85 }))).toBe('17 of 20');
    expect(countText(figures({ count: 7, asWritten: 3 / 7 }))).toBe('3 of 7');
    expect(durationText(59.9)).toBe('0:59');
    expect(durationText(3605)).toBe('60:05');
    expect(bpmText(96)).toBe('96');
    expect(bpmText(96.504)).toBe('96.5');
  });
});
