import { firstCycleEndingAfter, firstMarkAtOrAfter } from './first-visible';
import type { LaneMark } from '../../live/lane-feed';
import { timeAt, xOf } from './lane-layout';
import type { LaneScene } from './lane-scene';

const barTexts: string[] = [];
const cycleTexts: string[][] = [];
/** No line is wider, CSS pixels: one this far outside the strip does not show on it. */
const LINE = 3;
const DASHES = [2, 4];
const SOLID: number[] = [];

/** Texts are made once and kept: a frame builds no strings. */
function barText(bar: number): string {
  if (bar < 1) return '';
  return (barTexts[bar] ??= String(bar));
}

/** The bar the playhead is in, large in the gutter. */
export function drawBarNow({ ctx, feed, layout, view, palette }: LaneScene): void {
  const mark = feed.marks[firstMarkAtOrAfter(feed.marks, view.nowUs + 1) - 1];
  if (!mark) return;
  ctx.textAlign = 'left';
  ctx.font = layout.cycleFont;
  ctx.fillStyle = palette.inkSoft;
  ctx.fillText('bar', 0, layout.barTextY);
  ctx.font = layout.barFont;
  ctx.fillStyle = palette.ink;
  ctx.fillText(barText(mark.bar), layout.rulerY * 0.6, layout.barTextY);
}

function cycleText(number: number, of: number): string {
  const row = (cycleTexts[of] ??= []);
  return (row[number] ??= of === 1 ? '' : `${number} of ${of}`);
}

/** Bar and beat lines through the staff, under everything else. */
export function drawGrid({ ctx, feed, layout, view, palette }: LaneScene): void {
  const lineUs = LINE / view.pxPerUs;
  const endUs = timeAt(layout, view, layout.width) + lineUs;
  const from = firstMarkAtOrAfter(feed.marks, view.originUs - lineUs);
  for (let i = from; i < feed.marks.length; i++) {
    const mark = feed.marks[i]!;
    if (mark.timeUs > endUs) break;
    if (mark.kind === 'partial') continue;
    const x = xOf(layout, view, mark.timeUs);
    const bar = mark.kind === 'bar';
    ctx.fillStyle = bar ? palette.bar : palette.beat;
    ctx.fillRect(
      x - (bar ? 1 : 0.5),
      layout.rulerY,
      bar ? 2 : 1,
      layout.staffBottom - layout.rulerY,
    );
  }
}

/** Where each cycle starts, carried down through the staff, so that it is seen going across the bar. */
export function drawCycleStarts({ ctx, feed, layout, view, palette }: LaneScene): void {
  const lineUs = LINE / view.pxPerUs;
  const endUs = timeAt(layout, view, layout.width) + lineUs;
  ctx.strokeStyle = palette.inkSoft;
  ctx.lineWidth = 1.5;
  ctx.setLineDash(DASHES);
  ctx.beginPath();
  const from = firstCycleEndingAfter(feed.cycles, view.originUs - lineUs);
  for (let i = from; i < feed.cycles.length; i++) {
    const { startUs } = feed.cycles[i]!;
    if (startUs > endUs) break;
    const x = xOf(layout, view, startUs);
    ctx.moveTo(x, layout.cycleY);
    ctx.lineTo(x, layout.staffBottom);
  }
  ctx.stroke();
  ctx.setLineDash(SOLID);
}

/** So far to the left of what is drawn a bar without a click may begin that still shows there, microseconds: a slow one. */
const LONGEST_BAR_US = 8_000_000;

/** What a bar is called that has no click, or nothing else. */
function barWord({ isSilent, isCountIn, bar }: LaneMark): string | undefined {
  if (isSilent) return 'silent';
  return isCountIn && bar > 0 ? 'count-in' : undefined;
}

/** Bars without a click, or with nothing else: a ground of their own behind the meter's ruler, and the word for it. */
function drawNamedBars({ ctx, feed, layout, view, palette }: LaneScene): void {
  const { marks } = feed;
  const endUs = timeAt(layout, view, layout.width);
  const from = firstMarkAtOrAfter(marks, view.originUs - LONGEST_BAR_US);
  ctx.font = layout.cycleFont;
  ctx.textAlign = 'left';
  for (let i = from; i < marks.length && marks[i]!.timeUs <= endUs; i++) {
    const mark = marks[i]!;
    const word = mark.kind === 'bar' ? barWord(mark) : undefined;
    if (word === undefined) continue;
    const x = xOf(layout, view, mark.timeUs);
    let next = i + 1;
    while (next < marks.length && marks[next]!.kind !== 'bar') next++;
    const right = next < marks.length ? xOf(layout, view, marks[next]!.timeUs) : layout.width;
    ctx.fillStyle = palette.tolerance;
    ctx.fillRect(x, 0, right - x, layout.rulerY);
    ctx.fillStyle = palette.ink;
    ctx.fillText(word, x + layout.rulerY * 0.75, layout.barTextY);
  }
}

/** The meter's ruler: bars numbered, beats and counting syllables over a graduated edge. */
export function drawMeterRuler(scene: LaneScene): void {
  const { ctx, feed, layout, view, palette } = scene;
  const { plotLeft, width, rulerY, countY, barTextY } = layout;
  drawNamedBars(scene);
  ctx.fillStyle = palette.bar;
  ctx.fillRect(plotLeft - 1, rulerY - 0.5, width - plotLeft + 1, 1);
  const endUs = timeAt(layout, view, width) + 200_000;
  const from = firstMarkAtOrAfter(feed.marks, view.originUs - 200_000);
  drawMarks(scene, from, endUs, 'partial');
  drawMarks(scene, from, endUs, 'beat');
  ctx.font = layout.barFont;
  ctx.textAlign = 'left';
  ctx.fillStyle = palette.ink;
  for (let i = from; i < feed.marks.length; i++) {
    const mark = feed.marks[i]!;
    if (mark.timeUs > endUs) break;
    if (mark.kind !== 'bar') continue;
    const x = xOf(layout, view, mark.timeUs);
    ctx.fillRect(x - 1, barTextY - layout.rulerY * 0.27, 2, layout.rulerY * 0.29);
    ctx.fillText(barText(mark.bar), x + 6, barTextY);
  }
  ctx.textAlign = 'center';
  ctx.font = layout.beatFont;
  for (let i = from; i < feed.marks.length; i++) {
    const mark = feed.marks[i]!;
    if (mark.timeUs > endUs) break;
    if (mark.kind !== 'partial') ctx.fillText(mark.label, xOf(layout, view, mark.timeUs), countY);
  }
}

function drawMarks(scene: LaneScene, from: number, endUs: number, kind: 'partial' | 'beat'): void {
  const { ctx, layout, view, palette } = scene;
  const { marks } = scene.feed;
  const partial = kind === 'partial';
  const tick = layout.rulerY * (partial ? 0.07 : 0.13);
  ctx.font = layout.partialFont;
  ctx.textAlign = 'center';
  ctx.fillStyle = partial ? palette.inkSoft : palette.ink;
  for (let i = from; i < marks.length; i++) {
    const mark = marks[i]!;
    if (mark.timeUs > endUs) break;
    if ((mark.kind === 'partial') !== partial) continue;
    const x = xOf(layout, view, mark.timeUs);
    ctx.fillRect(x - 0.5, layout.rulerY - tick, partial ? 1 : 1.5, tick);
    if (!partial || mark.label === '') continue;
    const before = i > 0 ? marks[i - 1]!.timeUs : -Infinity;
    if ((mark.timeUs - before) * view.pxPerUs >= layout.partialRoom)
      ctx.fillText(mark.label, x, layout.countY);
  }
}

/** The cycle's ruler: one bracket a cycle, its number set into the line. */
export function drawCycleRuler({ ctx, feed, layout, view, palette }: LaneScene): void {
  const { cycleY, plotLeft, width } = layout;
  const hook = layout.rulerY * 0.2;
  const endUs = timeAt(layout, view, width);
  ctx.font = layout.cycleFont;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  for (
    let i = firstCycleEndingAfter(feed.cycles, view.originUs);
    i < feed.cycles.length && feed.cycles[i]!.startUs < endUs;
    i++
  ) {
    const cycle = feed.cycles[i]!;
    const first = cycle.number === 1;
    const left = xOf(layout, view, cycle.startUs) + 1.5;
    const right = xOf(layout, view, cycle.endUs) - 2.5;
    const thick = first ? 2 : 1;
    const text = cycleText(cycle.number, cycle.of);
    const middle = (Math.max(left, plotLeft) + Math.min(right, width)) / 2;
    const half = layout.rulerY * 0.48 + 8;
    ctx.fillStyle = palette.ink;
    ctx.fillRect(left, cycleY, thick, hook);
    ctx.fillRect(right - thick, cycleY, thick, hook);
    const room = text !== '' && Math.min(right, width) - Math.max(left, plotLeft) > half * 2 + 8;
    if (room) {
      ctx.fillRect(left, cycleY, middle - half - left, thick);
      ctx.fillRect(middle + half, cycleY, right - middle - half, thick);
      ctx.fillText(text, middle, cycleY + 1);
    } else ctx.fillRect(left, cycleY, right - left, thick);
  }
  ctx.textBaseline = 'alphabetic';
}
