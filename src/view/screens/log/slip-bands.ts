import { partialCount } from '../../../coach/evidence/partial-of-beat';
import { sideText } from '../../../coach/figure-words';
import type { Slip } from '../../../coach/place/slip';
import type { OpenedTake } from '../../../live/open-take';
import { gridAt } from '../../../phrase/model/grid';
import type { Band } from '../../lane/draw-band';

/** Where the place was lost, as stretches of the lane. */
export const slipBands = ({ slips, endUs }: Pick<OpenedTake, 'slips' | 'endUs'>): readonly Band[] =>
  slips.map(({ fromUs, toUs = endUs }) => ({ fromUs, toUs }));

/** How the notes of such a stretch stand: "one sixteenth late from bar 9 on". */
export function slipWords(
  { plan, lane }: Pick<OpenedTake, 'plan' | 'lane'>,
  { partials, passage, fromUs, toUs }: Slip,
): string {
  const { subdivision } = gridAt(plan.phrase, plan.passages[passage]!.layer);
  const barAt = (us: number) => lane.marks.findLast(({ timeUs }) => timeUs <= us)?.bar ?? 1;
  const from = Math.max(1, barAt(fromUs));
  const where = toUs === undefined ? `from bar ${from} on` : `from bar ${from} to ${barAt(toUs)}`;
  return `${partialCount(Math.abs(partials), subdivision)} ${sideText(partials)} ${where}`;
}
