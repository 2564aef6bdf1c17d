import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beats, mixedNumber, parseBeats } from '../../src/time/beats';

describe('beats as text', () => {
  it.each([
    ['2', 2, 1],
    ['5/3', 5, 3],
    ['2 1/3', 7, 3],
    ['-1 1/2', -3, 2],
    ['-1/4', -1, 4],
    ['0', 0, 1],
    [' 3 ', 3, 1],
    [' -1 1/2', -3, 2],
    ['11/16', 11, 16],
    ['123456789', 123_456_789, 1],
    ['1/123456', 1, 123_456],
    ['1 123456/2', 61_729, 1],
    ['0 1/123456', 1, 123_456],
  ])('%j is %i/%i', (text, numerator, denominator) => {
    expect(parseBeats(text)?.equals(beats(numerator, denominator))).toBe(true);
  });

  it.each([
    '',
    'x',
    '1.5',
    '1/0',
    '1 1/0',
    '1  1/2',
    '1 1/',
    '1e3',
    '٣',
    '1234567890',
    'x1',
    '1x',
    '1/1234567',
    '1 1234567/2',
    '1 1/1234567',
    '1/-2',
  ])('%j is no beat', (text) => {
    expect(parseBeats(text)).toBeUndefined();
  });

  it('lawRoundTrip: a beat written as a mixed number reads back as itself', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -5000, max: 5000 }),
        fc.integer({ min: 1, max: 48 }),
        (n, d) => {
          expect(parseBeats(mixedNumber(beats(n, d)))?.toFraction()).toBe(beats(n, d).toFraction());
        },
      ),
    );
  });
});
