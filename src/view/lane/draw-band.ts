import { xOf } from './lane-layout';
import type { LaneScene } from './lane-scene';

/** From the first thing in it to the last, integer microseconds. */
export interface Band {
  readonly fromUs: number;
  readonly toUs: number;
}

/** Told by its edges; the paper between them is only a little darker. */
export function drawBand({ ctx, layout, view, palette }: LaneScene, { fromUs, toUs }: Band): void {
  const { plotLeft, rulerY, staffBottom } = layout;
  const left = Math.max(plotLeft, xOf(layout, view, fromUs) - layout.space);
  const right = Math.max(plotLeft, xOf(layout, view, toUs) + layout.space);
  const high = staffBottom - rulerY;
  ctx.fillStyle = palette.ink;
  ctx.globalAlpha = 0.1;
  ctx.fillRect(left, rulerY, right - left, high);
  ctx.globalAlpha = 1;
  for (const [edge, inward] of [
    [left, 1],
    [right, -1],
  ] as const) {
    if (edge <= plotLeft) continue;
    ctx.fillRect(edge - 1.5, rulerY, 3, high);
    ctx.fillRect(edge, rulerY, inward * layout.space * 0.6, 3);
    ctx.fillRect(edge, staffBottom - 3, inward * layout.space * 0.6, 3);
  }
}
