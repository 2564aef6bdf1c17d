import { xmlText } from '../xml';
import type { NoteSign } from '../score/note-signs';

/** Sizes of letters, hundredths of a millimetre. Chosen. */
export const ROW_SIZE = { sticking: 350, beat: 290, count: 290, cycle: 280, tuplet: 270 } as const;
type RowName = keyof typeof ROW_SIZE;

const BOLD: readonly RowName[] = ['sticking', 'beat'];
const UNDERLINE = { below: 60, half: 125, thick: 50 } as const;
/** How far an underline reaches below the foot of its letter. */
export const UNDERLINE_DEPTH = UNDERLINE.below + UNDERLINE.thick;

/** Letters of a row: a cycle's begin at x, any other stand in the middle of it. */
export function rowText(name: RowName, x: number, y: number, text: string): string {
  const anchor = name === 'cycle' ? '' : ' text-anchor="middle"';
  const weight = BOLD.includes(name) ? ' font-weight="600"' : '';
  const slant = name === 'tuplet' ? ' font-style="italic" font-weight="600"' : '';
  return `<text class="${name}" x="${round(x)}" y="${round(y)}"${anchor} font-size="${ROW_SIZE[name]}"${weight}${slant} stroke="none">${xmlText(text)}</text>`;
}

/** A sign around its middle. */
export function rowSign(sign: NoteSign, x: number, y: number): string {
  if (sign === 'open')
    return `<circle class="open" cx="${round(x)}" cy="${round(y)}" r="68" fill="none" stroke-width="28"/>`;
  const lines =
    sign === 'acc'
      ? `M${round(x - 135)} ${round(y - 78)}l270 78l-270 78`
      : `M${round(x - 80)} ${round(y)}h160m-80 -80v160`;
  return `<path class="${sign}" d="${lines}" fill="none" stroke-width="${sign === 'acc' ? 34 : 30}"/>`;
}

/** The line under a letter with its foot at y. */
export const underline = (x: number, y: number): string =>
  `<rect class="new" x="${round(x - UNDERLINE.half)}" y="${round(y + UNDERLINE.below)}" width="${2 * UNDERLINE.half}" height="${UNDERLINE.thick}" stroke="none"/>`;

const round = Math.round;
