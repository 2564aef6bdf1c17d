import type { Kit } from './kit';
import { DOUBLE_TRIGGER, faultLimits, GENUINE, padFault } from './pad-fault';
import { padGroups } from './pad-groups';
import type { Stroke } from './stroke';

/**
 * Which strokes are the kit's fault and not the player's, per stroke: 0 kept, 1 double trigger (a
 * weaker second stroke of the pad's group within its retrigger time), 2 crosstalk (a faint stroke
 * within a few milliseconds of a much stronger one of another group, as the kit has learned of the pair). The strokes may come in any
 * order; a stroke that is both is a double trigger. A stroke on a note without a pad is kept.
 *
 * @example [...setAside([{ timeUs: 0, velocity: 100, pad: 38 }, { timeUs: 9000, velocity: 40, pad: 38 }], GENERAL_MIDI)] // => [0, 1]
 */
export function setAside(
  strokes: readonly Pick<Stroke, 'timeUs' | 'velocity' | 'pad'>[],
  kit: Kit,
): Uint8Array {
  const { ofNote } = padGroups(kit);
  const limits = faultLimits(kit);
  const order = strokes
    .map((_, i) => i)
    .filter((i) => ofNote[strokes[i]!.pad]! >= 0)
    .sort((a, b) => strokes[a]!.timeUs - strokes[b]!.timeUs);
  const why = new Uint8Array(strokes.length);
  const groupOf = (stroke: number) => ofNote[strokes[stroke]!.pad]!;
  const blame = (stroke: number, cause: number) => {
    if (why[stroke] === DOUBLE_TRIGGER) return;
    const one = strokes[stroke]!;
    const two = strokes[cause]!;
    const pair = groupOf(cause) * limits.groups + groupOf(stroke);
    const fault = padFault(limits, one.timeUs - two.timeUs, pair, one.velocity, two.velocity);
    if (fault !== GENUINE) why[stroke] = fault;
  };
  // Of a group's strokes only those count as causes that no nearer one is as strong as: at most one a velocity,
  // however many there are at once.
  const lookBack = (inOrder: readonly number[]) => {
    const causes: number[] = [];
    for (const stroke of inOrder) {
      const { timeUs, velocity } = strokes[stroke]!;
      let kept = 0;
      for (const cause of causes) {
        if (Math.abs(timeUs - strokes[cause]!.timeUs) > limits.reachUs) continue;
        blame(stroke, cause);
        const isOutdone =
          groupOf(cause) === groupOf(stroke) && strokes[cause]!.velocity <= velocity;
        if (!isOutdone) causes[kept++] = cause;
      }
      causes.length = kept;
      causes.push(stroke);
    }
  };
  lookBack(order);
  lookBack(order.reverse());
  return why;
}
