import { LEVELS } from '../../phrase/model/level';
import { headX } from './draw-notes';
import type { PrintedScene } from './lane-scene';

const ACCENT = LEVELS.indexOf('accent');
/** Half the width, and how far up and down the corners stand, in staff spaces: clear of parentheses, accents and hi-hat signs. */
const HALF = 1;
const UP = 1.25;
const UP_OVER_ACCENT = 1.8;
const DOWN = 1.15;
const ARM = 0.42;

/** Square brackets at the corners of some notes, told by shape: a ring is a missed note's, a parenthesis a ghost's. */
export function drawBrackets(scene: PrintedScene, notes: ReadonlySet<number>): void {
  const { ctx, feed, rowOf, layout, palette, from, to } = scene;
  const { space } = layout;
  const arm = ARM * space;
  ctx.strokeStyle = palette.ink;
  ctx.lineWidth = Math.max(2, space * 0.16);
  ctx.beginPath();
  for (let i = from; i < to; i++) {
    const row = rowOf[feed.noteVoice[i]!]!;
    if (row < 0 || !notes.has(i)) continue;
    const x = headX(scene, i);
    const y = layout.rowY[row]!;
    const size = feed.noteGraceStep[i] === 0 ? space : space * 0.6;
    const top = y - size * (feed.noteLevel[i] === ACCENT ? UP_OVER_ACCENT : UP);
    const foot = y + size * DOWN;
    for (const side of [-1, 1]) {
      const edge = x + side * HALF * size;
      ctx.moveTo(edge - side * arm, top);
      ctx.lineTo(edge, top);
      ctx.lineTo(edge, top + arm);
      ctx.moveTo(edge, foot - arm);
      ctx.lineTo(edge, foot);
      ctx.lineTo(edge - side * arm, foot);
    }
  }
  ctx.stroke();
}
