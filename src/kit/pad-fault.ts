import type { Kit } from './kit';
import { padGroups } from './pad-groups';

/** What was set aside and why; 0 is kept. */
export const KEPT = 0;
export const DOUBLE_TRIGGER = 1;
export const CROSSTALK = 2;

/**
 * A second stroke of a group this soon after the first can be a double trigger. Chosen, not measured: well
 * under the 30 ms or so between the strokes of a quick drag (common practice, no source).
 */
export const DEFAULT_RETRIGGER_MS = 25;
/** And only when it has less than this share of the first one's velocity, in percent. Chosen, not measured. */
const RETRIGGER_BELOW_PERCENT = 70;
/** Crosstalk lies this near a stroke of another group, before or after. Chosen, not measured. */
export const CROSSTALK_US = 5_000;
/**
 * And has at most this share of its velocity, in percent. Chosen, not measured: of the 4341 strokes of
 * ten real performances (Groove MIDI Dataset) 15 % sets one aside, 20 % five and 25 % thirteen, soft
 * pedal and ghost notes struck together with an accent among them.
 */
const CROSSTALK_UP_TO_PERCENT = 16;

/**
 * Whether `other` makes a stroke a fault of the kit, from `sinceUs`, the stroke's time minus the
 * other's. The rule looks at two strokes only, so the order of arrival cannot matter.
 *
 * @example padFault(12000, 30, 100, true, 20000) // => 1
 */
export function padFault(
  sinceUs: number,
  velocity: number,
  otherVelocity: number,
  sameGroup: boolean,
  retriggerUs: number,
): number {
  if (sameGroup)
    return sinceUs >= 0 &&
      sinceUs <= retriggerUs &&
      velocity * 100 < otherVelocity * RETRIGGER_BELOW_PERCENT
      ? DOUBLE_TRIGGER
      : KEPT;
  return sinceUs >= -CROSSTALK_US &&
    sinceUs <= CROSSTALK_US &&
    velocity * 100 <= otherVelocity * CROSSTALK_UP_TO_PERCENT
    ? CROSSTALK
    : KEPT;
}

/** Retrigger time of each group in integer microseconds: the longest among its pads. */
export function retriggerUsOfGroups(kit: Pick<Kit, 'pads'>): Float64Array {
  const { names, ofNote } = padGroups(kit);
  const times = new Float64Array(names.length);
  for (const { note, retriggerMs = DEFAULT_RETRIGGER_MS } of kit.pads) {
    const group = ofNote[note]!;
    times[group] = Math.max(times[group]!, Math.round(retriggerMs * 1000));
  }
  return times;
}
