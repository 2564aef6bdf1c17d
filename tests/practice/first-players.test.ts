import { expect, it } from 'vitest';
import { findings } from '../../src/coach/findings';
import { boundariesOf } from '../../src/kit/boundaries-of';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import type { Plan } from '../../src/match/plan';
import { timedNotes } from '../../src/match/timed-notes';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import { FIRST_PLAYERS } from '../../src/practice/inputs/players';
import { assessMessages } from '../../src/score/assess';
import { simulate } from '../../src/take/simulate';
import { steadyTempo } from '../../src/time/tempo';
import { libraryPhrases } from '../phrase/library-phrases';

const { text } = libraryPhrases().find(({ name }) => name === 'quay-steps')!;
const parsed = parsePhrase(text);
if (!parsed.ok) throw new Error('no such phrase');
const phrase = parsed.value;
/** Twenty sixteenths at 88. */
const CYCLE_US = (20 * 15e6) / 88;

// The dials say: scatter of 14 ms, ghosts too loud now and then, one stroke of a hundred missing; no limb that is late and
// no drift.
it.each([1, 5])('the first simulated take says what its dials say, on layer %d', (layer) => {
  const plan: Plan = {
    phrase,
    passages: [{ fromBar: 1, layer }],
    tempo: steadyTempo(88),
    windows: {},
  };
  const { faults, seed } = FIRST_PLAYERS;
  const { messages } = simulate(timedNotes(plan, 12 * CYCLE_US), faults, seed);
  for (let cycle = 1; cycle <= 11; cycle++) {
    const soFar = messages.filter(({ timeUs }) => timeUs < cycle * CYCLE_US - 50_000);
    const { judgement } = assessMessages(plan, soFar, GENERAL_MIDI);
    const [first] = findings(plan, judgement, (pad) => boundariesOf(GENERAL_MIDI, pad));
    expect(first?.text).toMatch(
      /^(Nothing to say about time yet|Nothing stands out|Even|Spread 1\d ms|Snare ghosts too loud)/,
    );
  }
});
