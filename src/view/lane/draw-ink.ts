import { COMMAND } from '../../kit/pad-fault';
import { LANE_LEVEL_VERDICTS, LANE_VERDICTS } from '../../live/lane-feed';
import { firstAtOrAfter } from '../../time/first-from';
import { timeAt, xOf } from './lane-layout';
import type { LaneScene } from './lane-scene';
import { NOTEHEADS } from '../../notation/notehead';

const EARLY = LANE_VERDICTS.indexOf('early');
const LATE = LANE_VERDICTS.indexOf('late');
const WRONG = LANE_VERDICTS.indexOf('wrong voice');
const TOO_LOUD = LANE_LEVEL_VERDICTS.indexOf('too loud');
const TOO_SOFT = LANE_LEVEL_VERDICTS.indexOf('too soft');
const DOTS = [1, 4];
const SOLID: number[] = [];

/** Strokes come in order of arrival: one may be this much out of time order. Chosen, not measured. */
const DISORDER_US = 1_000_000;

/** What was played: an upright stroke of ink at its own time, as tall as it was loud. */
export function drawInk(scene: LaneScene): void {
  const { ctx, feed, rowOf, layout, view } = scene;
  const startUs = view.originUs - 100_000;
  const endUs = timeAt(layout, view, layout.width) + 100_000;
  const from = firstAtOrAfter(feed.strokeTimeUs, feed.strokeCount, startUs - DISORDER_US);
  ctx.lineWidth = Math.max(1.25, layout.inkWidth * 0.4);
  ctx.font = layout.smallFont;
  ctx.textAlign = 'center';
  for (let s = from; s < feed.strokeCount; s++) {
    const timeUs = feed.strokeTimeUs[s]!;
    if (timeUs > endUs + DISORDER_US) break;
    const row = rowOf[feed.strokeVoice[s]!]!;
    if (timeUs < startUs || timeUs > endUs || row < 0) continue;
    const x = xOf(layout, view, timeUs);
    const foot = layout.rowY[row]! + layout.inkFoot;
    const top = foot - Math.max(4, (layout.inkFull * feed.strokeVelocity[s]!) / 127);
    if (feed.strokeSetAside[s] === COMMAND) continue;
    if (feed.strokeSetAside[s] !== 0) drawSetAside(scene, x, foot, top);
    else if (feed.strokeNote[s]! < 0) drawExtra(scene, x, foot, top);
    else drawAnswer(scene, s, x, foot, top);
  }
}

function drawAnswer(scene: LaneScene, s: number, x: number, foot: number, top: number): void {
  const { ctx, feed, layout, palette } = scene;
  const note = feed.strokeNote[s]!;
  const verdict = feed.noteVerdict[note];
  const early = verdict === EARLY;
  const late = verdict === LATE;
  const wide = layout.inkWidth;
  if (verdict === WRONG) drawTie(scene, s, x);
  ctx.fillStyle = early ? palette.early : late ? palette.late : palette.ink;
  ctx.fillRect(x - wide / 2, top, wide, foot - top);
  if (early || late) {
    const side = early ? -1 : 1;
    const flag = Math.max(7, layout.rowHeight * 0.2);
    ctx.beginPath();
    ctx.moveTo(x + (side * wide) / 2, top);
    ctx.lineTo(x + side * (wide / 2 + flag * 1.05), top + flag / 2);
    ctx.lineTo(x + (side * wide) / 2, top + flag);
    ctx.fill();
  }
  const level = feed.noteLevelVerdict[note];
  const half = wide / 2 + Math.max(4, layout.rowHeight * 0.09);
  const bar = Math.max(2, wide * 0.6);
  if (level === TOO_LOUD) ctx.fillRect(x - half, top - bar * 2.2, half * 2, bar);
  else if (level === TOO_SOFT) ctx.fillRect(x - half, foot + bar * 0.8, half * 2, bar);
}

/** Struck on another row: the head it would be written with, tied to the note it answers. */
function drawTie(scene: LaneScene, s: number, x: number): void {
  const { ctx, feed, rowOf, layout, view, palette } = scene;
  const note = feed.strokeNote[s]!;
  const struck = feed.strokeVoice[s]!;
  const y = layout.rowY[rowOf[struck]!]!;
  const noteRow = rowOf[feed.noteVoice[note]!]!;
  ctx.strokeStyle = palette.ink;
  ctx.fillStyle = palette.ink;
  const sameRow = noteRow === rowOf[struck]!;
  const headY = sameRow ? y - layout.rowHeight * 0.42 : y;
  if (noteRow >= 0) {
    ctx.beginPath();
    ctx.moveTo(x, headY);
    ctx.lineTo(xOf(layout, view, feed.noteTimeUs[note]!), layout.rowY[noteRow]!);
    ctx.stroke();
  }
  ctx.fillText(NOTEHEADS[struck]!.glyph, x, headY);
}

/** Answers no note: a small cross where it stands. */
function drawExtra(scene: LaneScene, x: number, foot: number, top: number): void {
  const { ctx, layout, palette } = scene;
  const arm = Math.max(4, layout.rowHeight * 0.09);
  ctx.fillStyle = palette.ink;
  ctx.fillRect(x - layout.inkWidth / 2, top, layout.inkWidth, foot - top - arm);
  ctx.strokeStyle = palette.ink;
  ctx.beginPath();
  ctx.moveTo(x - arm, foot - arm);
  ctx.lineTo(x + arm, foot + arm);
  ctx.moveTo(x - arm, foot + arm);
  ctx.lineTo(x + arm, foot - arm);
  ctx.stroke();
}

/** The kit's own doing: dotted and pale. */
function drawSetAside(scene: LaneScene, x: number, foot: number, top: number): void {
  const { ctx, layout, palette } = scene;
  ctx.strokeStyle = palette.inkSoft;
  ctx.setLineDash(DOTS);
  ctx.lineCap = 'round';
  ctx.lineWidth = layout.inkWidth * 0.7;
  ctx.beginPath();
  ctx.moveTo(x, foot);
  ctx.lineTo(x, top);
  ctx.stroke();
  ctx.setLineDash(SOLID);
  ctx.lineCap = 'butt';
  ctx.lineWidth = Math.max(1.25, layout.inkWidth * 0.4);
}
