import { LANE_VERDICTS } from '../../live/lane-feed';
import { LEVELS } from '../../phrase/model/level';
import { LIMBS } from '../../phrase/model/limb';
import { GLYPH, NOTEHEADS } from '../../notation/notehead';
import { xOf } from './lane-layout';
import type { PrintedScene } from './lane-scene';

const MISSED = LANE_VERDICTS.indexOf('missed');
const GHOST = LEVELS.indexOf('ghost');
const ACCENT = LEVELS.indexOf('accent');
const DASHES = [4, 3];
const SOLID: number[] = [];
const TOGETHER_US = 10_000;

/** The window of each note, and inside it the part that counts as in time. */
export function drawWindows(scene: PrintedScene): void {
  const { ctx, feed, rowOf, layout, view, palette, from, to } = scene;
  const high = layout.rowHeight * 0.8;
  ctx.fillStyle = palette.window;
  for (let i = from; i < to; i++) {
    const row = rowOf[feed.noteVoice[i]!]!;
    if (row < 0) continue;
    const half = feed.noteReachUs[i]! * view.pxPerUs;
    const x = xOf(layout, view, feed.noteTimeUs[i]!);
    ctx.fillRect(x - half, layout.rowY[row]! - high / 2, half * 2, high);
  }
  ctx.fillStyle = palette.tolerance;
  for (let i = from; i < to; i++) {
    const row = rowOf[feed.noteVoice[i]!]!;
    if (row < 0 || feed.noteGraceStep[i] !== 0) continue;
    const half = feed.noteToleranceUs[i]! * view.pxPerUs;
    const x = xOf(layout, view, feed.noteTimeUs[i]!);
    ctx.fillRect(x - half, layout.rowY[row]! - high / 2, half * 2, high);
  }
}

/**
 * Heads, parentheses, accents, hi-hat signs and grace notes.
 */
export function drawNotes(scene: PrintedScene): void {
  const { ctx, feed, rowOf, layout, view, colour, from, to } = scene;
  const { space } = layout;
  ctx.fillStyle = colour;
  ctx.font = layout.headFont;
  ctx.textAlign = 'center';
  for (let i = from; i < to; i++) {
    const row = rowOf[feed.noteVoice[i]!]!;
    if (row < 0 || feed.noteGraceStep[i] !== 0) continue;
    const x = xOf(layout, view, feed.noteTimeUs[i]!);
    const y = layout.rowY[row]!;
    const level = feed.noteLevel[i];
    ctx.fillText(NOTEHEADS[feed.noteVoice[i]!]!.glyph, x, y);
    if (level === GHOST) {
      ctx.fillText(GLYPH.parenthesisLeft, x - space * 0.86, y);
      ctx.fillText(GLYPH.parenthesisRight, x + space * 0.86, y);
    } else if (level === ACCENT) ctx.fillText(GLYPH.accent, x, y - space * 0.72);
  }

  ctx.font = layout.smallFont;
  for (let i = from; i < to; i++) {
    const row = rowOf[feed.noteVoice[i]!]!;
    if (row < 0) continue;
    if (feed.noteGraceStep[i] !== 0) {
      drawGrace(scene, i, layout.rowY[row]!);
      continue;
    }
    const { sign, signBelow } = NOTEHEADS[feed.noteVoice[i]!]!;
    if (sign === '' || (sign === GLYPH.closed && !scene.closedSigns)) continue;
    const x = xOf(layout, view, feed.noteTimeUs[i]!);
    const up = feed.noteLevel[i] === ACCENT ? 1.65 : 0.7;
    ctx.fillText(sign, x, layout.rowY[row]! + space * (signBelow ? 1.45 : -up));
  }
}

/** Where a note's head stands: a grace note's clear of its main note. */
export function headX({ feed, layout, view }: PrintedScene, i: number): number {
  const x = xOf(layout, view, feed.noteTimeUs[i]!);
  const step = feed.noteGraceStep[i]!;
  if (step === 0) return x;
  const main = xOf(layout, view, feed.noteTimeUs[feed.noteMain[i]!]!);
  return Math.min(x, main - layout.space * (0.45 + 0.95 * step));
}

/** A small head with a slashed stem; kept clear of its main note however close it is played. */
function drawGrace(scene: PrintedScene, i: number, y: number): void {
  const { ctx, feed, layout, colour } = scene;
  const { space } = layout;
  const x = headX(scene, i);
  const stem = x + space * 0.38;
  const top = y - space * 1.2;
  ctx.strokeStyle = colour;
  ctx.fillText(NOTEHEADS[feed.noteVoice[i]!]!.glyph, x, y);
  ctx.lineWidth = Math.max(1, space * 0.09);
  ctx.beginPath();
  ctx.moveTo(stem, y - space * 0.1);
  ctx.lineTo(stem, top);
  if (feed.noteGraceStep[i] === 1) {
    ctx.moveTo(stem - space * 0.4, top + space * 0.8);
    ctx.lineTo(stem + space * 0.35, top + space * 0.3);
  }
  ctx.stroke();
}

/** A dashed ring round every note that nothing answered. */
export function drawMissed(scene: PrintedScene): void {
  const { ctx, feed, rowOf, layout, view, palette, from, to } = scene;
  ctx.strokeStyle = palette.ink;
  ctx.lineWidth = Math.max(1.5, layout.space * 0.13);
  ctx.setLineDash(DASHES);
  for (let i = from; i < to; i++) {
    const row = rowOf[feed.noteVoice[i]!]!;
    if (feed.noteVerdict[i] !== MISSED || row < 0) continue;
    const radius = layout.space * (feed.noteGraceStep[i] === 0 ? 1.1 : 0.7);
    ctx.beginPath();
    ctx.arc(xOf(layout, view, feed.noteTimeUs[i]!), layout.rowY[row]!, radius, 0, 2 * Math.PI);
    ctx.stroke();
  }
  ctx.setLineDash(SOLID);
}

/** The sticking under the staff; limbs that sound together are stacked. */
export function drawSticking(scene: PrintedScene): void {
  const { ctx, feed, layout, view, colour, from, to } = scene;
  ctx.font = layout.letterFont;
  ctx.fillStyle = colour;
  ctx.textAlign = 'center';
  let line = 0;
  let previousUs = -Infinity;
  for (let i = from; i < to; i++) {
    if (feed.noteGraceStep[i] !== 0) continue;
    const timeUs = feed.noteTimeUs[i]!;
    line = timeUs - previousUs < TOGETHER_US ? line + 1 : 0;
    if (line === 0) previousUs = timeUs;
    ctx.fillText(
      LIMBS[feed.noteLimb[i]!]!,
      xOf(layout, view, timeUs),
      layout.letterY + line * layout.letterLine,
    );
  }
}
