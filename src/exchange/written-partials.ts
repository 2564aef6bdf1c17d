import { isFootVoice } from '../phrase/playability/places';
import { likelyDivisions, partialsOf, type Division } from './written-grid';
import { withGraces } from './written-graces';
import type { WrittenNote } from './written-notes';
import type { WrittenStretch } from './written-stretch';

/** A main note on its partial, counted from bar 1 beat 1 of the phrase, with the grace notes ahead of it. */
export interface NoteOnPartial {
  readonly partial: number;
  readonly main: WrittenNote;
  readonly graces: readonly WrittenNote[];
}

/** The notes of a stretch in partials. */
export interface WrittenPartials {
  readonly division: Division;
  /** In time order. */
  readonly notes: readonly NoteOnPartial[];
  /** Notes that lie on no partial and are no grace notes. */
  readonly offGrid: readonly WrittenNote[];
}

/**
 * How far a note may lie from its partial: half a tick, or a 960th of a quarter, half a tick of the coarsest clock that
 * files were commonly converted from. Chosen, not measured: far below what anybody plays.
 */
const MOST_OFF_QUARTERS = 1 / 960;
/** How long ahead of its main note a grace note sounds at most, µs. Chosen, not measured. */
const GRACE_US = 80_000;

/**
 * The partials that the notes of a file lie on: the plainest division of the beat that the fewest notes are off, as the
 * file says it where that is as good. Letters under the notes say which are grace notes; where there are none, a hand's
 * notes off the grid are, just ahead of one on it.
 *
 * @param usPerBeat at the phrase's tempo
 */
export function writtenPartials(
  notes: readonly WrittenNote[],
  stretch: WrittenStretch,
  usPerBeat: number,
): WrittenPartials {
  const { fromTick, toTick, pickupFrom, ticksPerBeat, meter } = stretch;
  const mostAhead = (GRACE_US * ticksPerBeat) / usPerBeat;
  const near = notes.filter(({ tick }) => tick >= pickupFrom - mostAhead && tick < toTick);
  const isIn = ({ tick }: WrittenNote) => tick >= pickupFrom && tick < toTick;
  const halfTick = 0.5 / ticksPerBeat;
  const mostOff = MOST_OFF_QUARTERS / meter.quartersPerBeat.valueOf();
  const hasLetters = notes.some(({ isGrace }) => isGrace !== undefined);
  let best: WrittenPartials | undefined;
  for (const division of likelyDivisions(meter, stretch.division)) {
    const partialOf = partialsOf(division, Math.max(halfTick, mostOff) + 1e-9);
    const partialAt = ({ tick }: WrittenNote) => partialOf((tick - fromTick) / ticksPerBeat);
    const isGrace = hasLetters
      ? (note: WrittenNote) => note.isGrace === true
      : (note: WrittenNote) => partialAt(note) === undefined && !isFootVoice(note.voice);
    const { graced, rest } = withGraces(near, isGrace, mostAhead);
    const placed: NoteOnPartial[] = [];
    const offGrid = rest.filter(isIn);
    for (const { main, graces } of graced) {
      if (!isIn(main)) continue;
      const partial = partialAt(main);
      if (partial === undefined) offGrid.push(main, ...graces);
      else placed.push({ partial, main, graces });
    }
    if (!best || offGrid.length < best.offGrid.length) best = { division, notes: placed, offGrid };
    if (offGrid.length === 0 && (hasLetters || graced.length === near.length)) return best;
  }
  return best!;
}
