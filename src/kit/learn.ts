import type { HiHatOpening, Kit, Pad } from './kit';
import { LEARN_STEPS, type LearnStep } from './learn-steps';
import { isNoteOn } from './raw-message';

/** What one step of the learn screen heard. */
export interface PadStrike {
  readonly timeMs: number;
  /** MIDI note number. */
  readonly note: number;
  readonly velocity: number;
  /** Value of controller 4 when the stroke came, if it had spoken by then. */
  readonly openingValue: number | undefined;
}

/** How far the learn screen has come. Every change gives a new one. */
export interface KitLearning {
  /** Index of the step now asked for; the number of steps when all is done. */
  readonly step: number;
  /** By step; undefined where it was skipped or not reached. */
  readonly heard: readonly (PadStrike | undefined)[];
  readonly openingValue: number | undefined;
}

export interface LearnedKit {
  readonly kit: Kit;
  /** What the player should know about the kit, one sentence each. */
  readonly remarks: readonly string[];
}

/** Nothing asked yet. @example startLearning().step // => 0 */
export const startLearning = (): KitLearning => ({ step: 0, heard: [], openingValue: undefined });

/** The upper half of the status byte of a control change. */
const CONTROL_CHANGE = 0xb;
const OPENING_CONTROLLER = 4;
/** Pads that speak within this time of each other were one stroke. Chosen, not measured. */
const ONE_STROKE_MS = 50;
/** Values of the controller nearer than this do not tell open from closed. Chosen, not measured. */
const OPENING_APART = 16;

/**
 * One raw message while learning, its time in milliseconds. A note-on answers the step and asks for
 * the next; when pads shake together the loudest of them counts, whichever comes first.
 *
 * @example hear(startLearning(), 0, 0x99, 36, 90).heard[0]?.note // => 36
 */
export function hear(
  learning: KitLearning,
  timeMs: number,
  status: number,
  data1: number,
  data2: number,
): KitLearning {
  if (status >> 4 === CONTROL_CHANGE && data1 === OPENING_CONTROLLER)
    return { ...learning, openingValue: data2 };
  if (!isNoteOn(status, data2)) return learning;
  const found: PadStrike = {
    timeMs,
    note: data1,
    velocity: data2,
    openingValue: learning.openingValue,
  };
  const last = learning.heard[learning.step - 1];
  if (last && Math.abs(timeMs - last.timeMs) <= ONE_STROKE_MS)
    return data2 > last.velocity ? answer(learning, learning.step - 1, found) : learning;
  return learning.step < LEARN_STEPS.length ? answer(learning, learning.step, found) : learning;
}

/**
 * Leaves the step out: the kit has no such zone.
 *
 * @example skip(startLearning()).step // => 1
 */
export const skip = (learning: KitLearning): KitLearning =>
  learning.step < LEARN_STEPS.length ? answer(learning, learning.step, undefined) : learning;

/**
 * Asks for the step before once more.
 *
 * @example back(skip(startLearning())).step // => 0
 */
export const back = (learning: KitLearning): KitLearning => ({
  ...learning,
  step: Math.max(0, learning.step - 1),
});

function answer(learning: KitLearning, step: number, found: PadStrike | undefined): KitLearning {
  const heard = LEARN_STEPS.map((_, i) => (i === step ? found : learning.heard[i]));
  return { ...learning, heard, step: step + 1 };
}

/**
 * The kit that was heard, and what the player should know; undefined before anything was struck.
 *
 * @example learnedKit(hear(startLearning(), 0, 0x99, 36, 90), 'Mine')?.kit.pads[0]?.voice // => 'bass drum'
 */
export function learnedKit(learning: KitLearning, title: string): LearnedKit | undefined {
  const remarks: string[] = [];
  const pads: Pad[] = [];
  const { opening, following } = openingOf(learning);
  LEARN_STEPS.forEach((step, i) => {
    const found = learning.heard[i];
    if (!found) return;
    const earlier = pads.find(({ note }) => note === found.note);
    if (earlier) {
      if (earlier.followsOpening !== true || step.zone === undefined)
        remarks.push(sameNote(step, earlier));
      return;
    }
    const { name, voice, group } = step;
    const follows = following.has(found.note) && step.zone !== undefined;
    pads.push({
      note: found.note,
      name,
      voice,
      group,
      ...(follows ? { followsOpening: true } : {}),
    });
  });
  return pads.length === 0 ? undefined : { kit: { title, pads, opening }, remarks };
}

function sameNote(step: LearnStep, earlier: Pad): string {
  const both = `"${step.name}" sends the same note ${earlier.note} as "${earlier.name}"`;
  return step.voice === earlier.voice
    ? `${both}: the two count as one.`
    : `${both}: the kit does not tell them apart, and both count as ${earlier.voice}. If its settings allow, give one of them another note.`;
}

/** Which notes leave open or closed to the controller, and how it tells. */
function openingOf({ heard }: KitLearning): { opening: HiHatOpening; following: Set<number> } {
  const struck = (voice: string, zone: string | undefined) =>
    heard[LEARN_STEPS.findIndex((step) => step.voice === voice && step.zone === zone)];
  const following = new Set<number>();
  let opening: HiHatOpening = {
    controller: OPENING_CONTROLLER,
    highMeans: 'closed',
    openFrom: 0.5,
  };
  for (const zone of ['edge', 'bow'] as const) {
    const closed = struck('hi-hat closed', zone);
    const open = struck('hi-hat open', zone);
    const low = closed?.openingValue;
    const high = open?.openingValue;
    if (low === undefined || high === undefined || Math.abs(high - low) < OPENING_APART) continue;
    const highMeans = high > low ? 'open' : 'closed';
    const middle = (low + high) / 2 / 127;
    const openFrom = highMeans === 'open' ? middle : 1 - middle;
    opening = { controller: OPENING_CONTROLLER, highMeans, openFrom };
    if (closed!.note === open!.note) following.add(closed!.note);
  }
  return { opening, following };
}
