import { passesToGoal, planAfterCycle, planAt } from '../../src/coach/tempo-plan';
import { tempoSteps } from '../../src/coach/tempo-steps';
import { cycleNotes } from '../../src/phrase/layers/expand';
import { Trial } from '../../src/score/gate';
import { GATE_THRESHOLD } from '../../src/score/gate-options';
import { OwnNotes, ownParts } from '../../src/score/own-notes';
import { chance } from '../../src/time/chance';
import { isSilentBar } from '../../src/time/silent-bars';
import { harbourPlan } from '../coach/practice-take';

/** Two bars with a click, four without. */
const RULE = { sounding: 2, silent: 4, growBy: 0, most: 4 };
const PLAN = {
  tempi: tempoSteps({ start: 80, goal: 120, by: 4, growBy: 0 }),
  cycles: 5,
  backAfter: 2,
};
const LAYER = 2;
const SPREAD_MS = 10;
const TOLERANCE_MS = 35;
/** Of the notes, what else may be as it should. */
const RIGHT = 0.95;
const MOST_US = 600e6;

/**
 * Steady players who have every tempo of a plan, of whom every beat without a click scatters by `walkMs`: how many of
 * them are at the goal after ten minutes, and how often they were sent back.
 *
 * @param isHeld whether they are held to the click where it is not heard, which the program does not do
 */
export function silentPlanClaims(walkMs: number, isHeld: boolean, players: number, seed: number) {
  const { phrase } = harbourPlan();
  let back = 0;
  let reached = 0;
  for (let player = 0; player < players; player++) {
    const draw = chance(seed + player);
    const anew = () => new Trial(new OwnNotes(ownParts(phrase, LAYER)).withoutPickup());
    let state = planAt(PLAN, PLAN.tempi[0]!);
    let [trial, bar, walk, us] = [anew(), 1, 0, 0];
    for (let cycle = 1; us < MOST_US && passesToGoal(PLAN, state) > 0; cycle++, bar++) {
      us += (phrase.meter.beatsPerBar * 60e6) / PLAN.tempi[state.step]!;
      const isSilent = isSilentBar(RULE, bar);
      const counts = isHeld || !isSilent;
      const due = cycleNotes(phrase, LAYER, cycle, 1);
      let [right, beat] = [0, -1];
      for (const note of due) {
        if (Math.floor(note.onset.valueOf()) !== beat) {
          beat = Math.floor(note.onset.valueOf());
          walk = isSilent ? walk + walkMs * draw.normal() : 0;
        }
        const isInTime = Math.abs(walk + SPREAD_MS * draw.normal()) <= TOLERANCE_MS;
        const isRight = draw.share() < RIGHT && isInTime;
        if (isRight) right++;
        if (counts) trial.add(note, LAYER, isRight);
      }
      if (!counts) continue;
      const { step } = state;
      state = planAfterCycle(PLAN, state, right / due.length >= GATE_THRESHOLD, trial.hasPassed);
      if (state.step < step) back++;
      // At another tempo the bars with a click come first.
      if (state.step !== step) [trial, bar] = [anew(), 0];
    }
    if (passesToGoal(PLAN, state) === 0) reached++;
  }
  return { back, reached };
}
