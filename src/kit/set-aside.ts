import type { Kit } from './kit';
import { CROSSTALK_US, DOUBLE_TRIGGER, KEPT, padFault, retriggerUsOfGroups } from './pad-fault';
import { padGroups } from './pad-groups';
import type { Stroke } from './stroke';

/**
 * Which strokes are the kit's fault and not the player's, per stroke: 0 kept, 1 double trigger (a
 * weaker second stroke of the pad's group within its retrigger time), 2 crosstalk (a faint stroke
 * within a few milliseconds of a much stronger one of another group). The strokes may come in any
 * order; a stroke that is both is a double trigger. A stroke on a note without a pad is kept.
 *
 * @example [...setAside([{ timeUs: 0, velocity: 100, pad: 38 }, { timeUs: 9000, velocity: 40, pad: 38 }], GENERAL_MIDI)] // => [0, 1]
 */
export function setAside(
  strokes: readonly Pick<Stroke, 'timeUs' | 'velocity' | 'pad'>[],
  kit: Kit,
): Uint8Array {
  const { ofNote } = padGroups(kit);
  const retriggerUs = retriggerUsOfGroups(kit);
  const reachUs = Math.max(CROSSTALK_US, ...retriggerUs);
  const order = strokes
    .map((_, i) => i)
    .filter((i) => ofNote[strokes[i]!.pad]! >= 0)
    .sort((a, b) => strokes[a]!.timeUs - strokes[b]!.timeUs);
  const why = new Uint8Array(strokes.length);
  const blame = (stroke: number, other: number) => {
    if (why[stroke] === DOUBLE_TRIGGER) return;
    const one = strokes[stroke]!;
    const two = strokes[other]!;
    const group = ofNote[one.pad]!;
    const same = group === ofNote[two.pad];
    const since = one.timeUs - two.timeUs;
    const fault = padFault(since, one.velocity, two.velocity, same, retriggerUs[group]!);
    if (fault !== KEPT) why[stroke] = fault;
  };
  let first = 0;
  order.forEach((stroke, at) => {
    while (strokes[stroke]!.timeUs - strokes[order[first]!]!.timeUs > reachUs) first++;
    for (let i = first; i < at; i++) {
      blame(stroke, order[i]!);
      blame(order[i]!, stroke);
    }
  });
  return why;
}
