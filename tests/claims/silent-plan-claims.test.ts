import { expect, it } from 'vitest';
import { longRunCount } from '../run-count';
import { silentPlanClaims } from './silent-plan-claims';

/** The program was not tuned on it. */
const SEED = 41_203;
const PLAYERS = longRunCount(40);

it('a steady player comes through a tempo plan with silent bars, and would not if held to the click there', () => {
  const heldNot = silentPlanClaims(12, false, PLAYERS, SEED);
  const held = silentPlanClaims(12, true, PLAYERS, SEED);
  expect(heldNot.reached).toBe(PLAYERS);
  expect(heldNot.back / PLAYERS).toBeLessThanOrEqual(1 / 30);
  expect(held.reached).toBeLessThan(PLAYERS / 10);
  expect(held.back).toBeGreaterThan(PLAYERS);
});
