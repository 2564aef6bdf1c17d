import { passageSpan, type PassageSpan, type Plan } from '../match/plan';
import { GRACE_STEP_MS } from '../match/timed-notes';
import { pickupNotes } from '../phrase/layers/expand';
import { layerStack } from '../phrase/layers/layer-stack';
import { realignment } from '../phrase/layers/realignment';
import { gridAt } from '../phrase/model/grid';
import type { Passage } from '../phrase/model/passage';
import type { Phrase } from '../phrase/model/phrase';
import { beats, type Beats } from '../time/beats';

/** Passages of which the first so many are those of the plan that they follow. */
export interface NextPassages {
  readonly same: number;
  readonly passages: readonly Passage[];
}

/**
 * Another layer (1-based) from the first realignment that leaves its pickup room after `fromUs`, and after whatever is
 * decided already.
 *
 * @param fromUs integer microseconds from bar 1 beat 1
 */
export function layerNext(plan: Plan, layer: number, fromUs: number): NextPassages {
  const { passages } = plan;
  const next = layerAfter(plan, passages.at(-1)!, layer, fromUs);
  return { same: passages.length, passages: [...passages, next] };
}

function layerAfter(
  { phrase, tempo }: Plan,
  last: Passage,
  layer: number,
  fromUs: number,
): Passage {
  const { bars } = realignment(phrase, last.layer);
  const pickup = pickupNotes(phrase, layer)[0]?.onset ?? beats(0);
  let fromBar = last.fromBar + bars;
  while (tempo.usAt(barLine(phrase, fromBar).add(pickup)) < fromUs) fromBar += bars;
  return { fromBar, layer };
}

/**
 * The target waits for a player who is so many partials late, early negative: it moves by as many at the first place at
 * or after `fromUs` where the player comes to the pattern's beginning, so that all goes on there as the player has it. Of
 * what was decided and has not begun, the layer comes a realignment later; all else is given up.
 *
 * @param fromUs integer microseconds from bar 1 beat 1
 */
export function waitNext(plan: Plan, partials: number, fromUs: number): NextPassages {
  const { same, now } = begun(plan, fromUs);
  const waits = moved(plan.phrase, now.layer, patternStart(plan, now, partials, fromUs));
  const { layer } = plan.passages.at(-1)!;
  const kept = plan.passages.slice(0, same);
  if (layer === now.layer) return { same, passages: [...kept, waits] };
  return { same, passages: [...kept, waits, layerAfter(plan, waits, layer, fromUs)] };
}

/** Where the pattern begins for who plays it so many partials late: its period is in cycles. */
function patternStart(
  { phrase, tempo }: Plan,
  now: PassageSpan,
  partials: number,
  fromUs: number,
): Beats {
  const { startBeats, subdivision, cycleBeats } = now.shape;
  const { period } = layerStack(phrase, now.layer);
  const first = now.from.add(startBeats);
  const step = cycleBeats.mul(Number.isFinite(period) ? period : 1);
  let start = first.add(beats(partials, subdivision));
  while (tempo.usAt(start) < fromUs || start.compare(first) <= 0 || start.compare(now.from) <= 0)
    start = start.add(step);
  return start;
}

/** A layer that goes on with its first cycle at a place that is a partial of it. */
function moved(phrase: Phrase, layer: number, start: Beats): Passage {
  const { subdivision, barPartials, displace } = gridAt(phrase, layer);
  const partial = Math.round(start.mul(subdivision).valueOf());
  const bar = Math.floor(partial / barPartials);
  return { fromBar: bar + 1, layer, latePartials: partial - bar * barPartials - displace };
}

/**
 * The player is brought back: from the first bar line at or after `fromUs` on so many bars of click, then the layer that
 * was decided last from its first cycle on, with its pickup. What was decided and has not begun is given up for it.
 *
 * @param fromUs integer microseconds from bar 1 beat 1
 */
export function returnNext(plan: Plan, countInBars: number, fromUs: number): NextPassages {
  const { phrase, tempo, passages } = plan;
  const { same, now } = begun(plan, fromUs);
  const first = now.from.add(now.shape.startBeats);
  const { layer } = passages.at(-1)!;
  const pickup = pickupNotes(phrase, layer)[0]?.onset ?? beats(0);
  const hasRoom = (bar: number) => {
    const line = barLine(phrase, bar);
    const next = barLine(phrase, bar + countInBars).add(pickup);
    const isAhead = tempo.usAt(line) >= fromUs && tempo.usAt(next) >= fromUs;
    return isAhead && line.compare(first) > 0 && line.compare(now.from) > 0;
  };
  let bar = now.fromBar + 1;
  while (!hasRoom(bar)) bar++;
  const back = { fromBar: bar + countInBars, layer, countInBars };
  return { same, passages: [...passages.slice(0, same), back] };
}

/** How many passages have begun by a time, the first notes of the next being due no sooner, and the last of them. */
function begun(plan: Plan, atUs: number): { readonly same: number; readonly now: PassageSpan } {
  for (let same = 1; ; same++) {
    const now = passageSpan(plan, same - 1);
    if (!now.to || !now.notesTo) return { same, now };
    const next = now.notesTo.compare(now.to) < 0 ? now.notesTo : now.to;
    if (plan.tempo.usAt(next) - 2 * GRACE_STEP_MS * 1000 >= atUs) return { same, now };
  }
}

const barLine = ({ meter }: Phrase, bar: number): Beats => beats((bar - 1) * meter.beatsPerBar);
