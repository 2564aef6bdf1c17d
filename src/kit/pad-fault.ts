import type { Kit } from './kit';
import { padGroups } from './pad-groups';

/** What was set aside and why; 0 is kept. */
export const GENUINE = 0;
export const DOUBLE_TRIGGER = 1;
export const CROSSTALK = 2;
/** It gave a command to the app, and is no stroke of what was played. */
export const COMMAND = 3;

/** How many strokes were put down to the kit. */
export interface StrokesSetAside {
  readonly doubleTriggers: number;
  readonly crosstalk: number;
}

/**
 * Of strokes by what was set aside and why.
 *
 * @example strokesSetAside(Uint8Array.of(0, 1, 0, 1, 2)) // => { doubleTriggers: 2, crosstalk: 1 }
 */
export function strokesSetAside(setAside: Uint8Array): StrokesSetAside {
  const count = (why: number) => setAside.filter((one) => one === why).length;
  return { doubleTriggers: count(DOUBLE_TRIGGER), crosstalk: count(CROSSTALK) };
}

/**
 * A second stroke of a group this soon after the first can be a double trigger. Chosen, not measured: well
 * under the 30 ms or so between the strokes of a quick drag (common practice, no source).
 */
export const DEFAULT_RETRIGGER_MS = 25;
/**
 * And only when it has less than this share of the first one's velocity, in percent. Chosen, not
 * measured: rolls in real playing (Groove MIDI Dataset) have strokes 23 to 30 ms apart and nearly as
 * loud, 116 then 96, which a plain "weaker" would set aside.
 */
export const RETRIGGER_BELOW_PERCENT = 70;
/** Crosstalk lies this near a stroke of another group, before or after. Chosen, not measured. */
export const CROSSTALK_US = 5_000;
/**
 * And has at most this share of its velocity, in percent. Chosen, not measured: of the 4341 strokes of
 * ten real performances (Groove MIDI Dataset) 15 % sets one aside, 20 % five and 25 % thirteen, soft
 * pedal and ghost notes struck together with an accent among them.
 */
export const CROSSTALK_UP_TO_PERCENT = 16;

/** The limits of every pair of groups, as columns for the live path. */
export interface FaultLimits {
  readonly groups: number;
  /** Longest retrigger time among a group's pads, integer microseconds, by group. */
  readonly retriggerUs: Float64Array;
  /** By struck group × groups + answering group. */
  readonly crosstalkUs: Float64Array;
  readonly crosstalkPercent: Float64Array;
  /** No stroke farther away than this can be a fault's cause. */
  readonly reachUs: number;
}

/** What a kit says about its faults, the defaults where it says nothing. */
export function faultLimits(kit: Pick<Kit, 'pads' | 'crosstalk'>): FaultLimits {
  const { names, ofNote } = padGroups(kit);
  const groups = names.length;
  const retriggerUs = new Float64Array(groups);
  for (const { note, retriggerMs = DEFAULT_RETRIGGER_MS } of kit.pads) {
    const group = ofNote[note]!;
    retriggerUs[group] = Math.max(retriggerUs[group]!, Math.round(retriggerMs * 1000));
  }
  const crosstalkUs = new Float64Array(groups * groups).fill(CROSSTALK_US);
  const crosstalkPercent = new Float64Array(groups * groups).fill(CROSSTALK_UP_TO_PERCENT);
  for (const { struck, answers, withinMs, upToPercent } of kit.crosstalk ?? []) {
    const pair = names.indexOf(struck) * groups + names.indexOf(answers);
    crosstalkUs[pair] = Math.round(withinMs * 1000);
    crosstalkPercent[pair] = upToPercent;
  }
  const reachUs = Math.max(0, ...retriggerUs, ...crosstalkUs);
  return { groups, retriggerUs, crosstalkUs, crosstalkPercent, reachUs };
}

/**
 * Whether `other` makes a stroke a fault of the kit, from `sinceUs`, the stroke's time minus the
 * other's. `pair` is the other's pad group times the number of groups plus the stroke's own. The rule looks at two strokes only, so the order of arrival cannot matter.
 *
 * @example padFault(faultLimits(GENERAL_MIDI), 12000, 0, 30, 100) // => 1
 */
export function padFault(
  limits: FaultLimits,
  sinceUs: number,
  pair: number,
  velocity: number,
  otherVelocity: number,
): number {
  const group = pair % limits.groups;
  if (pair === group * (limits.groups + 1))
    return sinceUs >= 0 &&
      sinceUs <= limits.retriggerUs[group]! &&
      velocity * 100 < otherVelocity * RETRIGGER_BELOW_PERCENT
      ? DOUBLE_TRIGGER
      : GENUINE;
  return Math.abs(sinceUs) <= limits.crosstalkUs[pair]! &&
    velocity * 100 <= otherVelocity * limits.crosstalkPercent[pair]!
    ? CROSSTALK
    : GENUINE;
}
