import { xOf } from './lane-layout';
import type { LaneRow } from './lane-rows';
import type { LaneScene } from './lane-scene';

export function drawPaper({ ctx, layout, palette }: LaneScene): void {
  ctx.fillStyle = palette.paper;
  ctx.fillRect(0, 0, layout.width, layout.height);
}

/** One hairline a row. */
export function drawRows({ ctx, layout, palette }: LaneScene): void {
  ctx.fillStyle = palette.row;
  for (let row = 0; row < layout.rowY.length; row++)
    ctx.fillRect(layout.plotLeft - 1, layout.rowY[row]! - 0.5, layout.plotWidth + 1, 1);
}

/** The one upright that does not move with the paper, with its nib in the meter's ruler. */
export function drawPlayhead({ ctx, layout, view, palette }: LaneScene): void {
  const x = xOf(layout, view, view.nowUs);
  const nib = layout.rulerY * 0.16;
  ctx.fillStyle = palette.ink;
  ctx.fillRect(x - 1.5, layout.rulerY, 3, layout.height - layout.rulerY);
  ctx.beginPath();
  ctx.moveTo(x - nib, layout.rulerY - nib);
  ctx.lineTo(x + nib, layout.rulerY - nib);
  ctx.lineTo(x, layout.rulerY + nib);
  ctx.fill();
}

/** The names of the rows, on paper of their own so that what scrolls off goes under them. */
export function drawGutter({ ctx, layout, palette }: LaneScene, rows: readonly LaneRow[]): void {
  ctx.fillStyle = palette.paper;
  ctx.fillRect(0, 0, layout.plotLeft, layout.height);
  ctx.fillStyle = palette.ink;
  ctx.fillRect(layout.plotLeft - 2, layout.rulerY, 1, layout.staffBottom - layout.rulerY);
  ctx.font = layout.labelFont;
  ctx.textAlign = 'left';
  ctx.textBaseline = 'middle';
  for (let row = 0; row < rows.length; row++)
    ctx.fillText(layout.narrow ? rows[row]!.short : rows[row]!.label, 0, layout.rowY[row]!);
  ctx.font = layout.cycleFont;
  ctx.fillStyle = palette.inkSoft;
  ctx.fillText('meter', 0, layout.countY - layout.rulerY * 0.1);
  ctx.fillText('cycle', 0, layout.cycleY + 1);
  ctx.textBaseline = 'alphabetic';
}
