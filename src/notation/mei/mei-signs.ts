import { voiceNumber } from '../../phrase/model/voice';
import { GLYPH, NOTEHEADS } from '../notehead';
import type { Score, StaffNote } from '../score/score';
import { eventsOf, STAFF_VOICES } from '../score/score';

/** MEI's names of signs, data.ARTICULATION: the hi-hat closed and open, an accent. */
export type MeiSign = 'stop' | 'open' | 'acc';

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
): readonly MeiSign[] {
  const glyphs = new Set(
    notes
      .filter(({ voice }) => voice !== 'hi-hat closed' || hasClosedSigns)
      .map(({ voice }) => NOTEHEADS[voiceNumber(voice)]!.sign),
  );
  const signs: MeiSign[] = [];
  if (glyphs.has(GLYPH.closed)) signs.push('stop');
  if (glyphs.has(GLYPH.open)) signs.push('open');
  if (notes.some(({ level }) => level === 'accent')) signs.push('acc');
  return signs;
}
