import type { ScoreNote } from '../../notation/score-columns';
import type { ScoreLayout } from './score-layout';

/** A stretch of a column, CSS pixels from the top of its line. */
export interface Zone {
  readonly top: number;
  readonly bottom: number;
}

/**
 * Where each note of a column can be touched: around its head, half way to its neighbours, and on its letter. A note
 * alone has all of the column from its head's surroundings down to its letter.
 */
export function noteZones(
  notes: readonly Pick<ScoreNote, 'place'>[],
  {
    middleY,
    space,
    beamY,
    letterY,
    letterLine,
  }: Pick<ScoreLayout, 'middleY' | 'space' | 'beamY' | 'letterY' | 'letterLine'>,
): readonly (readonly Zone[])[] {
  const yOf = (i: number) => middleY - (notes[i]!.place * space) / 2;
  const lettersTop = letterY - letterLine * 0.75;
  const between = (i: number) => (yOf(i) + yOf(i + 1)) / 2;
  return notes.map((_, i) => {
    const top = i === 0 ? beamY : between(i - 1);
    const bottom = i === notes.length - 1 ? lettersTop : between(i);
    const letter = { top: lettersTop + i * letterLine, bottom: lettersTop + (i + 1) * letterLine };
    return notes.length === 1 ? [{ top, bottom: letter.bottom }] : [{ top, bottom }, letter];
  });
}
