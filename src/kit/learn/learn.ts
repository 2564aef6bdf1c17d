import type { Voice } from '../../phrase/model/voice';
import { isNoteOn } from '../raw-message';
import { OPENING_CONTROLLER } from './hi-hat-pedal';
import { LEARN_STEPS, type LearnStep } from './learn-steps';
import type { PadStrike } from './pad-strike';

/** How far the player has come. Every change gives a new one. */
export interface KitLearning {
  readonly steps: readonly LearnStep[];
  /** Index of the step now asked for; the number of steps when all is done. */
  readonly step: number;
  /** By step; undefined where it was skipped or not reached. */
  readonly heard: readonly (PadStrike | undefined)[];
  /** Value of controller 4, once it has spoken. */
  readonly openingValue: number | undefined;
  /** Its lowest and highest value since the last stroke, if it spoke since. */
  readonly openingBefore: PadStrike['openingBefore'];
  /** Since when the step is asked for, ms; undefined while nobody has struck anything yet. */
  readonly sinceMs: number | undefined;
}

/**
 * Nothing struck yet.
 *
 * @param sinceMs when the first step is asked for, where the player is known to be there.
 * @example startLearning().step // => 0
 */
export const startLearning = (steps = LEARN_STEPS, sinceMs?: number): KitLearning => ({
  steps,
  step: 0,
  heard: [],
  openingValue: undefined,
  openingBefore: undefined,
  sinceMs,
});

/** The upper half of the status byte of a control change. */
const CONTROL_CHANGE = 0xb;
/** Pads that speak within this time of each other were one stroke. Chosen, not measured. */
const ONE_STROKE_MS = 50;
/** A pad that speaks again within this is its stick bouncing: nobody reads the next sentence so fast. Chosen, not measured. */
const BOUNCE_MS = 400;
/** Who strikes nothing for so long has no such pad. Chosen, not measured: time to read, look and reach. */
export const WAIT_MS = 8000;

/**
 * One raw message while learning, its time in milliseconds. A note-on answers the step and asks for the next; when pads
 * shake together the loudest of them counts, whichever comes first. A bounce is no answer, and neither is what the
 * pedal sends while it is put down for the stick.
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
    return hearController(learning, timeMs, data2);
  if (!isNoteOn(status, data2)) return learning;
  const { step, steps, openingValue, openingBefore } = learning;
  const strike: PadStrike = { timeMs, note: data1, velocity: data2, openingValue, openingBefore };
  const last = learning.heard[step - 1];
  if (last && Math.abs(timeMs - last.timeMs) <= ONE_STROKE_MS)
    return data2 > last.velocity
      ? answer(learning, step - 1, { ...strike, openingBefore: last.openingBefore }, timeMs)
      : learning;
  if (last?.note === data1 && Math.abs(timeMs - last.timeMs) < BOUNCE_MS) return learning;
  if (steps[step]?.zone && isOfPedal(learning, data1)) return learning;
  return step < steps.length ? answer(learning, step, strike, timeMs) : learning;
}

/** What is told just after a stroke is where the pedal stood at it: modules send the two in either order. */
function hearController(learning: KitLearning, timeMs: number, value: number): KitLearning {
  const [low, high] = learning.openingBefore ?? [value, value];
  const openingBefore = [Math.min(low, value), Math.max(high, value)] as const;
  const moved = { ...learning, openingValue: value, openingBefore };
  const last = learning.heard[learning.step - 1];
  if (!last || Math.abs(timeMs - last.timeMs) > ONE_STROKE_MS) return moved;
  const heard = moved.heard.with(learning.step - 1, { ...last, openingValue: value });
  return { ...moved, heard };
}

/** Whether the foot alone makes the hi-hat send that note. */
const isOfPedal = ({ steps, heard }: KitLearning, note: number): boolean =>
  steps.some(({ group }, i) => group === 'hi-hat pedal' && heard[i]?.note === note);

/**
 * Leaves the step out: the kit has no such zone.
 *
 * @example skip(startLearning()).step // => 1
 */
export const skip = (learning: KitLearning, nowMs = learning.sinceMs): KitLearning =>
  learning.step < learning.steps.length
    ? answer(learning, learning.step, undefined, nowMs)
    : learning;

/**
 * Asks for the step before once more.
 *
 * @example back(skip(startLearning())).step // => 0
 */
export const back = (learning: KitLearning, nowMs = learning.sinceMs): KitLearning => ({
  ...learning,
  step: Math.max(0, learning.step - 1),
  sinceMs: nowMs,
});

function answer(
  learning: KitLearning,
  step: number,
  strike: PadStrike | undefined,
  sinceMs: number | undefined,
): KitLearning {
  const heard = learning.steps.map((_, i) => (i === step ? strike : learning.heard[i]));
  return { ...learning, heard, step: step + 1, sinceMs, openingBefore: undefined };
}

/**
 * How long the player may still wait until the step is left out, ms; undefined where nobody waits.
 *
 * @example waitLeftMs(startLearning(undefined, 0), 7000) // => 1000
 */
export const waitLeftMs = (
  { step, steps, sinceMs }: KitLearning,
  nowMs: number,
): number | undefined =>
  sinceMs === undefined || step >= steps.length
    ? undefined
    : Math.max(0, sinceMs + WAIT_MS - nowMs);

/** What was struck for a voice, in its first zone. */
export const strikeOf = (
  { steps, heard }: KitLearning,
  voice: Voice,
  zone?: LearnStep['zone'],
): PadStrike | undefined =>
  heard[steps.findIndex((one) => one.voice === voice && (!zone || one.zone === zone))];
