import { expect, it } from 'vitest';
import { verdictOf } from '../../src/match/verdict';

const due = { note: { voice: 'snare' }, timeUs: 1_000_000, toleranceUs: 35_000 } as const;

it.each([
  [-35_001, 'snare', 'early'],
  [-35_000, 'snare', 'in time'],
  [35_000, 'snare', 'in time'],
  [35_001, 'snare', 'late'],
  [-90_000, 'crash', 'wrong voice'],
  [90_000, 'crash', 'wrong voice'],
] as const)('a stroke %i µs from a snare note on the %s is %s', (offsetUs, voice, verdict) => {
  expect(verdictOf(due, { voice, timeUs: due.timeUs + offsetUs })).toBe(verdict);
});

it('a note without a stroke is missed', () => {
  expect(verdictOf(due, undefined)).toBe('missed');
});
