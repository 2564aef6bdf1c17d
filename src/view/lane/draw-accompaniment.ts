import type { AccompanyingNote } from '../../live/lane-feed';
import { GLYPH, NOTEHEADS } from '../../notation/notehead';
import { voiceNumber } from '../../phrase/model/voice';
import { firstFrom } from '../../time/first-from';
import { xOf } from './lane-layout';
import type { PrintedScene } from './lane-scene';

/** Of the ink. Chosen: beside it the notes that are asked for stand out, and on paper it is still told apart. */
const PALE = 0.45;

const timeOf = ({ timeUs }: AccompanyingNote): number => timeUs;

/** What the app plays: small and pale, without windows and sticking, since nobody is asked for it. */
export function drawAccompaniment(scene: PrintedScene, fromUs: number, toUs: number): void {
  const { ctx, feed, rowOf, layout, view, colour } = scene;
  const { accompaniment } = feed;
  const { space } = layout;
  ctx.fillStyle = colour;
  ctx.globalAlpha = PALE;
  ctx.font = layout.smallFont;
  ctx.textAlign = 'center';
  for (let i = firstFrom(accompaniment, timeOf, fromUs); i < accompaniment.length; i++) {
    const { timeUs, note } = accompaniment[i]!;
    if (timeUs >= toUs) break;
    const voice = voiceNumber(note.voice);
    const row = rowOf[voice]!;
    if (row < 0) continue;
    const x = xOf(layout, view, timeUs) - (note.graceStep > 0 ? space * 0.4 : 0);
    const y = layout.rowY[row]!;
    ctx.fillText(NOTEHEADS[voice]!.glyph, x, y);
    if (note.level === 'accent') ctx.fillText(GLYPH.accent, x, y - space * 0.72);
    else if (note.level === 'ghost') {
      ctx.fillText(GLYPH.parenthesisLeft, x - space * 0.6, y);
      ctx.fillText(GLYPH.parenthesisRight, x + space * 0.6, y);
    }
  }
  ctx.globalAlpha = 1;
}
