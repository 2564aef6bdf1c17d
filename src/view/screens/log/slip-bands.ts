import { partialCount } from '../../../coach/evidence/partial-of-beat';
import { sideText } from '../../../coach/figure-words';
import type { Slip } from '../../../coach/place/slip';
import { slippedBars } from '../../../coach/place/slipped-bars';
import type { LaneFeed } from '../../../live/lane-feed';
import { markAt } from '../../../live/mark-at';
import type { OpenedTake } from '../../../live/open-take';
import type { Plan } from '../../../match/plan';
import { gridAt } from '../../../phrase/model/grid';
import type { Band } from '../../lane/draw-band';

/** Where the place was lost, as stretches of the lane. */
export const slipBands = ({ slips, endUs }: Pick<OpenedTake, 'slips' | 'endUs'>): readonly Band[] =>
  slips.map(({ fromUs, toUs = endUs }) => ({ fromUs, toUs }));

/** How the notes of such a stretch stand: "one sixteenth late from bar 9 on". */
export function slipWords(
  { plan, lane }: { readonly plan: Plan; readonly lane: Pick<LaneFeed, 'marks'> },
  { partials, passage, fromUs, toUs }: Slip,
): string {
  const { subdivision } = gridAt(plan.phrase, plan.passages[passage]!.layer);
  const barAt = (us: number) => Math.max(1, markAt(lane.marks, us)?.bar ?? 1);
  const from = barAt(fromUs);
  const where = toUs === undefined ? `from bar ${from} on` : slippedBars(from, barAt(toUs - 1));
  return `${partialCount(Math.abs(partials), subdivision)} ${sideText(partials)} ${where}`;
}
