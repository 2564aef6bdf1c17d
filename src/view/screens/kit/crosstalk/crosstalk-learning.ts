import type { StruckPad } from '../../../../kit/faults/learn-crosstalk';
import { HARD_FROM, ONE_STRIKE_US, strikes } from '../../../../kit/faults/strikes';
import type { Kit, Pad } from '../../../../kit/kit';
import { LEARN_STEPS } from '../../../../kit/learn/learn-steps';

/** Hard strikes asked for on each pad. Chosen, not measured: two more than are needed. */
export const STRIKES_A_PAD = 6;

type PadStroke = StruckPad['strokes'][number];

/** How far the player has come, pad by pad. Every stroke gives a new one. */
export interface CrosstalkLearning {
  readonly kit: Kit;
  /** What is asked for, in this order: the first pad of each group. */
  readonly pads: readonly Pad[];
  /** Index of the pad asked for now; the number of them when all is done. */
  readonly step: number;
  /** By step: all that came while the pad was asked for. */
  readonly strokes: readonly (readonly PadStroke[])[];
}

/** Begins with the pads that most kits have. */
export function startCrosstalk(kit: Kit): CrosstalkLearning {
  const pads = kit.pads.filter(
    ({ group }, i) => kit.pads.findIndex((pad) => pad.group === group) === i,
  );
  return {
    kit,
    pads: pads.sort((a, b) => placeOf(a) - placeOf(b)),
    step: 0,
    strokes: pads.map(() => []),
  };
}

function placeOf({ voice }: Pad): number {
  const place = LEARN_STEPS.findIndex((step) => step.voice === voice);
  return place < 0 ? LEARN_STEPS.length : place;
}

const groupOf = ({ pads }: Kit, note: number): string | undefined =>
  pads.find((pad) => pad.note === note)?.group;

/** The strikes on the pad of a step, hard or not. */
function strikesOn({ kit, pads, strokes }: CrosstalkLearning, step: number): PadStroke[] {
  const group = pads[step]?.group;
  return strikes((strokes[step] ?? []).filter(({ pad }) => groupOf(kit, pad) === group));
}

/** How many hard strikes the pad asked for has. */
export const strikesSoFar = (learning: CrosstalkLearning): number =>
  strikesOn(learning, learning.step).filter(({ velocity }) => velocity >= HARD_FROM).length;

/** One note-on, its time in integer microseconds. What still comes with the last strike on a pad is that one's. */
export function strikePad(learning: CrosstalkLearning, stroke: PadStroke): CrosstalkLearning {
  if (groupOf(learning.kit, stroke.pad) === undefined) return learning;
  const { step } = learning;
  const last = strikesOn(learning, step - 1).at(-1);
  const belated = last && Math.abs(stroke.timeUs - last.timeUs) <= ONE_STRIKE_US;
  const told = withStrokes(learning, belated ? step - 1 : step, (before) => [...before, stroke]);
  return strikesSoFar(told) < STRIKES_A_PAD ? told : { ...told, step: step + 1 };
}

/** Leaves the pad out that is asked for. */
export const leaveOut = (learning: CrosstalkLearning): CrosstalkLearning => ({
  ...withStrokes(learning, learning.step, () => []),
  step: Math.min(learning.pads.length, learning.step + 1),
});

/** Asks for the pad before anew. */
export function askAgain(learning: CrosstalkLearning): CrosstalkLearning {
  const step = Math.max(0, learning.step - 1);
  const emptied = withStrokes(learning, learning.step, () => []);
  return { ...withStrokes(emptied, step, () => []), step };
}

/** Asks for no further pad; the one asked for stays when it was struck. */
export function askNoMore(learning: CrosstalkLearning): CrosstalkLearning {
  const { pads, step, strokes } = learning;
  const count = strokes[step]?.length ? step + 1 : step;
  return {
    ...learning,
    pads: pads.slice(0, count),
    strokes: strokes.slice(0, count),
    step: count,
  };
}

const withStrokes = (
  learning: CrosstalkLearning,
  step: number,
  change: (strokes: readonly PadStroke[]) => readonly PadStroke[],
): CrosstalkLearning => ({
  ...learning,
  strokes: learning.strokes.map((strokes, i) => (i === step ? change(strokes) : strokes)),
});

/** What came last while this pad was asked for, in words; nothing before the first. */
export function lastStrikeLine(learning: CrosstalkLearning): string {
  const { kit, pads, step, strokes } = learning;
  const last = strikes(strokes[step] ?? []).at(-1);
  if (!last) return '';
  const group = groupOf(kit, last.pad)!;
  if (group !== pads[step]?.group) return `That was ${group}.`;
  return last.velocity < HARD_FROM
    ? `Velocity ${last.velocity} is too soft: harder, from ${HARD_FROM} on.`
    : `Velocity ${last.velocity}.`;
}
