import { expect, it } from 'vitest';
import type { Change } from '../../../../src/phrase/model/phrase';
import {
  whatIsMissing,
  whatIsUnused,
} from '../../../../src/view/screens/compose/change/next-change';

const nothingSet: Change = { kind: 'set', where: {}, set: {} };
const accents: Change = { kind: 'set', where: {}, set: { level: 'accent' } };
const pickup: Change = { kind: 'pickup', pickup: [{ partialsBefore: 1, limb: 'L' }] };
const distant: Change = { kind: 'accentEvery', accentEvery: 3, from: 1, where: {} };
const first = { positions: [1] };

it('says what a change still lacks', () => {
  expect(whatIsMissing(accents, undefined)).toBe(
    'Select the notes first, above or on the score line.',
  );
  expect(whatIsMissing(nothingSet, first)).toBe('Say what the selected notes get.');
  expect(whatIsMissing(accents, first)).toBeUndefined();
  expect(whatIsMissing(pickup, undefined)).toBeUndefined();
});

it('says so where a change has no use for the notes that are selected', () => {
  expect(whatIsUnused(pickup, first)).toBe(
    'This kind of change does not ask which notes are selected.',
  );
  expect(whatIsUnused(pickup, undefined)).toBeUndefined();
  expect(whatIsUnused(distant, first)).toBeUndefined();
});
