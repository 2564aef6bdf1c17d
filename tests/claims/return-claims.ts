import { returnsOff } from '../../src/coach/timing/returns-off';
import { ERROR_RATE } from '../../src/coach/take-evidence';
import type { TimedNote } from '../../src/match/timed-note';
import { chance } from '../../src/time/chance';
import { isSilentBar } from '../../src/time/silent-bars';
import { harbourNotes, harbourPlan, judged, later, play } from '../coach/practice-take';

const RULE = { sounding: 2, silent: 2, growBy: 0, most: 2 };
const ROUND = RULE.sounding + RULE.silent;
const PLAN = { ...harbourPlan(), silentBars: RULE };
const BAR_BEATS = 4;
const BEAT_US = 60e6 / PLAN.phrase.tempoBpm;

/** Somebody whose strokes scatter, and whose every beat does where there is no click; and who may rush or drag there. */
export interface SilentPlayer {
  readonly spreadMs: number;
  /** Of a beat without a click, ms. */
  readonly walkMs: number;
  /** How much sooner or later every beat without a click comes, ms; early negative. */
  readonly driftMs: number;
}

/** How many of so many takes are told of their silent bars, and how many of those the wrong way. */
export function returnClaims(player: SilentPlayer, rounds: number, takes: number, seed: number) {
  const notes = harbourNotes(rounds * ROUND + 1);
  let said = 0;
  let wrong = 0;
  for (let take = 0; take < takes; take++) {
    const walks = walksOf(player, rounds + 1, seed + take);
    const strokes = play(
      notes,
      { spreadMs: player.spreadMs, velocitySpread: 5 },
      seed + take,
      (stroke, due) => later(stroke, offsetMs(due, walks)),
    );
    const [claim] = returnsOff(PLAN, judged(notes, strokes).notes, ERROR_RATE);
    if (!claim) continue;
    said++;
    const isRushing = claim.text.startsWith('Rushing');
    if (player.driftMs === 0 || isRushing !== player.driftMs < 0) wrong++;
  }
  return { said, wrong };
}

/** Beat by beat without a click, round by round, ms off. */
function walksOf({ walkMs, driftMs }: SilentPlayer, rounds: number, seed: number): number[][] {
  const { normal } = chance(seed);
  return Array.from({ length: rounds }, () => {
    const walk = [0];
    for (let beat = 1; beat <= RULE.silent * BAR_BEATS; beat++)
      walk.push(walk[beat - 1]! + driftMs + walkMs * normal());
    return walk;
  });
}

function offsetMs({ timeUs, note }: TimedNote, walks: readonly (readonly number[])[]): number {
  if (!isSilentBar(RULE, note.bar)) return 0;
  const beat = timeUs / BEAT_US;
  const round = Math.floor(beat / (ROUND * BAR_BEATS));
  return walks[round]![Math.floor(beat - (round * ROUND + RULE.sounding) * BAR_BEATS)]!;
}
