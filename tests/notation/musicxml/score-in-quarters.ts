import { eventsOf, STAFF_VOICES, type Score } from '../../../src/notation/score/score';

/** A main note of a score as any reader of it should have it. */
export interface NoteInQuarters {
  readonly id: string;
  /** From the start of the first bar, pickup included. */
  readonly quarters: number;
  /** From 0, pickup included. */
  readonly bar: number;
  /** Quarters from its start. */
  readonly inBar: number;
  /** Half staff spaces above the middle line. */
  readonly place: number;
  /** Such as "3:2"; empty outside a tuplet. */
  readonly tuplet: string;
  readonly hasGraces: boolean;
}

/** The main notes of a score, by the numbers of the score model alone. */
export function notesInQuarters(score: Score): readonly NoteInQuarters[] {
  const partial = score.meter.quartersPerBeat.valueOf() / score.subdivision;
  const first = score.bars[0]!.partial;
  return score.bars.flatMap((bar, number) =>
    STAFF_VOICES.flatMap((voice) =>
      bar.voices[voice].flatMap(({ events, tuplet }) =>
        events.flatMap((event) =>
          event.notes.map(({ id, place }) => ({
            id,
            quarters: (event.partial - first) * partial,
            bar: number,
            inBar: (event.partial - bar.partial) * partial,
            place,
            tuplet: tuplet ? `${tuplet.number}:${tuplet.inTimeOf}` : '',
            hasGraces: event.graces.length > 0,
          })),
        ),
      ),
    ),
  );
}

/** How many grace notes a score has. */
export const graceCount = (score: Score): number =>
  score.bars
    .flatMap((bar) => STAFF_VOICES.flatMap((voice) => eventsOf(bar, voice)))
    .reduce((sum, { graces }) => sum + graces.length, 0);
