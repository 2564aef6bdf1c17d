import { passesToGoal, planAfterCycle, planAt, type TempoPlan } from '../../src/coach/tempo-plan';
import { cycleNotes } from '../../src/phrase/layers/expand';
import type { Phrase } from '../../src/phrase/model/phrase';
import { Trial } from '../../src/score/gate';
import { GATE_THRESHOLD } from '../../src/score/gate-options';
import { OwnNotes, ownParts } from '../../src/score/own-notes';
import { chance } from '../../src/time/chance';
import { ClaimCount, type Claim } from './claim';
import { NOTES_A_MINUTE } from './gate-claims';

/** Somebody whose share of notes as written falls the quicker it goes, by so many points of 100 a beat a minute. */
export interface TempoPlayer {
  /** The tempo at which the share is that of the gate's threshold. */
  readonly limitBpm: number;
  readonly pointsABpm: number;
}

/** Points of 100 that a player may be off the threshold before a claim is wrong: the gate does not care within. */
const POINTS = 0.05;
const MOST_SHARE = 0.985;

export const shareAt = ({ limitBpm, pointsABpm }: TempoPlayer, bpm: number): number =>
  Math.min(MOST_SHARE, Math.max(0, GATE_THRESHOLD + ((limitBpm - bpm) * pointsABpm) / 100));

/**
 * What a plan says to players in ten minutes: "passed at", wrong where they are 5 points or more under the threshold there;
 * "back to", wrong where they are 5 points or more above it.
 */
export function tempoPlanClaims(
  phrase: Phrase,
  layer: number,
  plan: TempoPlan,
  players: readonly TempoPlayer[],
  seed: number,
): readonly Claim[] {
  const draw = chance(seed);
  const passed = new ClaimCount('tempo plan: passed at a tempo');
  const back = new ClaimCount('tempo plan: back to a tempo');
  for (const player of players) {
    let state = planAt(plan, plan.tempi[0]!);
    const anew = () => new Trial(new OwnNotes(ownParts(phrase, layer)).withoutPickup());
    let trial = anew();
    let notes = 0;
    for (let cycle = 1; notes < 10 * NOTES_A_MINUTE && passesToGoal(plan, state) > 0; cycle++) {
      const share = shareAt(player, plan.tempi[state.step]!);
      let right = 0;
      const due = cycleNotes(phrase, layer, cycle, 1);
      for (const note of due) {
        const isRight = draw.share() < share;
        if (isRight) right++;
        trial.add(note, layer, isRight);
      }
      notes += due.length;
      const before = state;
      state = planAfterCycle(plan, state, right / due.length >= GATE_THRESHOLD, trial.hasPassed);
      const { kind } = state.reason;
      if (state.step !== before.step || kind === 'reached') trial = anew();
      if (kind === 'reached' || state.step > before.step)
        passed.add(share <= GATE_THRESHOLD - POINTS);
      if (state.step < before.step) back.add(share >= GATE_THRESHOLD + POINTS);
    }
  }
  return [passed.claim, back.claim];
}

/** From a limit at the plan's start to one beyond its goal, steep and shallow. */
export const tempoPlayers = (count: number, { tempi }: TempoPlan): readonly TempoPlayer[] =>
  Array.from({ length: count }, (_, i) => ({
    limitBpm: tempi[0]! + ((tempi.at(-1)! + 20 - tempi[0]!) * i) / Math.max(1, count - 1),
    pointsABpm: i % 2 === 0 ? 1 : 2.5,
  }));
