import { voiceNumber } from '../../phrase/model/voice';
import { GLYPH, NOTEHEADS } from '../notehead';
import { eventsOf, STAFF_VOICES, type Score, type StaffNote } from './score';

/** The hi-hat closed and open, an accent; as MEI names them, data.ARTICULATION. */
export type NoteSign = 'stop' | 'open' | 'acc';

/** Closed hi-hats are told from open ones where a score has both, as on the score line. */
export const tellsClosed = ({ bars }: Pick<Score, 'bars'>): boolean =>
  bars.some((bar) =>
    STAFF_VOICES.some((voice) =>
      eventsOf(bar, voice).some(({ notes }) => notes.some((note) => note.voice === 'hi-hat open')),
    ),
  );

/** The signs of what is struck at once, nearest to the head first. */
export function noteSigns(
  notes: readonly StaffNote[],
  hasClosedSigns: boolean,
): readonly NoteSign[] {
  const glyphs = new Set(
    notes
      .filter(({ voice }) => voice !== 'hi-hat closed' || hasClosedSigns)
      .map(({ voice }) => NOTEHEADS[voiceNumber(voice)]!.sign),
  );
  const signs: NoteSign[] = [];
  if (glyphs.has(GLYPH.closed)) signs.push('stop');
  if (glyphs.has(GLYPH.open)) signs.push('open');
  if (notes.some(({ level }) => level === 'accent')) signs.push('acc');
  return signs;
}
