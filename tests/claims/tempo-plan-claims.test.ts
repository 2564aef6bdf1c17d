import { describe, expect, it } from 'vitest';
import { tempoSteps } from '../../src/coach/tempo-steps';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import { libraryPhrases } from '../phrase/library-phrases';
import { longRunCount } from '../run-count';
import { wrongShare } from './claim';
import { tempoPlanClaims, tempoPlayers } from './tempo-plan-claims';

/** The program was not tuned on it. */
const SEED = 77_201;
const PLAYERS = longRunCount(300);
/** As it is before anything is chosen. */
const PLAN = {
  tempi: tempoSteps({ start: 80, goal: 120, by: 4, growBy: 0 }),
  cycles: 5,
  backAfter: 2,
};

describe.each(['quay-steps', 'crooked-pier', 'five-fathoms'])('a tempo plan on %s', (name) => {
  const { text } = libraryPhrases().find((one) => one.name === name)!;
  const parsed = parsePhrase(text);
  if (!parsed.ok) throw new Error(name);
  const [passed, back] = tempoPlanClaims(parsed.value, 2, PLAN, tempoPlayers(PLAYERS, PLAN), SEED);

  it('says "passed" of a tempo that is beyond the player once in 20 times at most', () => {
    expect(passed!.said).toBeGreaterThan(PLAYERS);
    expect(wrongShare(passed!)).toBeLessThanOrEqual(0.05);
  });

  it('says "back" of a tempo that the player has once in 30 times at most', () => {
    expect(back!.said).toBeGreaterThan(PLAYERS);
    expect(wrongShare(back!)).toBeLessThanOrEqual(1 / 30);
  });
});
