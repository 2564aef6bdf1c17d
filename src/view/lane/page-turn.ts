import type { LaneMark } from '../../live/lane-feed';
import { firstMarkAtOrAfter } from './first-visible';
import { onDevicePixel, type LaneLayout, type LaneView } from './lane-layout';

/** Part of the width left free before a page's first bar, and part that shows the start of the next page. */
const LEAD = 0.04;
const PEEK = 0.1;
/** One more bar is taken onto the page when at least 1 less this much of it fits. Chosen, not measured. */
const SQUEEZE = 0.3;

/** The still strip: a page of whole bars that stays put while the playhead crosses it, then is turned. */
export class PageTurn {
  startUs = 0;
  endUs = 0;
  #marks: readonly LaneMark[] | undefined;
  #spanUs = 0;

  place(
    layout: LaneLayout,
    marks: readonly LaneMark[],
    nowUs: number,
    dpr: number,
    view: LaneView,
  ): void {
    if (
      marks !== this.#marks ||
      layout.spanUs !== this.#spanUs ||
      nowUs < this.startUs ||
      nowUs >= this.endUs
    ) {
      this.#marks = marks;
      this.#spanUs = layout.spanUs;
      this.#turn(layout.spanUs * (1 - LEAD - PEEK), marks, nowUs);
    }
    const lengthUs = (this.endUs - this.startUs) / (1 - LEAD - PEEK);
    view.nowUs = nowUs;
    view.pxPerUs = layout.plotWidth / lengthUs;
    view.originUs = onDevicePixel(this.startUs - lengthUs * LEAD, view.pxPerUs * dpr);
  }

  #turn(roomUs: number, marks: readonly LaneMark[], nowUs: number): void {
    const here = barAtOrBefore(marks, firstMarkAtOrAfter(marks, nowUs + 1) - 1);
    const barUs = here < 0 ? 0 : barLengthUs(marks, here);
    const bars = barUs === 0 ? 0 : Math.floor(roomUs / barUs + SQUEEZE);
    if (bars === 0) {
      const fromUs = here < 0 ? 0 : marks[here]!.timeUs;
      this.startUs = fromUs + Math.floor((nowUs - fromUs) / roomUs) * roomUs;
      this.endUs = this.startUs + roomUs;
      if (barUs > 0 && nowUs < fromUs + barUs) this.endUs = Math.min(this.endUs, fromUs + barUs);
      return;
    }
    const { timeUs, bar } = marks[here]!;
    const firstUs = timeUs - ((((bar - 1) % bars) + bars) % bars) * barUs;
    const pageUs = bars * barUs;
    this.startUs = firstUs + Math.floor((nowUs - firstUs) / pageUs) * pageUs;
    this.endUs = this.startUs + pageUs;
  }
}

function barAtOrBefore(marks: readonly LaneMark[], index: number): number {
  let i = index;
  while (i >= 0 && marks[i]!.kind !== 'bar') i--;
  return i;
}

/** From the bar line at `here` to the next, or the length of the bar before the last one. */
function barLengthUs(marks: readonly LaneMark[], here: number): number {
  for (let i = here + 1; i < marks.length; i++)
    if (marks[i]!.kind === 'bar') return marks[i]!.timeUs - marks[here]!.timeUs;
  const before = barAtOrBefore(marks, here - 1);
  return before < 0 ? 0 : marks[here]!.timeUs - marks[before]!.timeUs;
}
