import { layerStack } from '../phrase/layers/layer-stack';
import { passageStart } from '../phrase/layers/passage-start';
import { gridAt } from '../phrase/model/grid';
import type { Passage } from '../phrase/model/passage';
import type { Phrase } from '../phrase/model/phrase';
import type { TempoMap } from '../time/tempo';
import { DAY_US } from './take-file';

/** Partials from bar 1 to the last stroke at most. Chosen, not measured: over eight hours of sixteenths at 240. */
export const MOST_PARTIALS = 500_000;

/**
 * Notes that a file may have due for each of its characters, so that what opening it costs is bounded by its length.
 * Measured: a note costs 3 to 8 µs of a processor, by how busy the machine is, so that a kB costs 25 ms at most.
 */
const NOTES_A_CHARACTER = 3;
/** A shorter file may have as much due as one of so many characters. */
const SHORTEST_FILE = 1024;
/** A partial on which nothing is due costs as much of a note: its mark on the lane. Measured, to a factor of two. */
const NOTES_A_PARTIAL = 1 / 8;

/** What is due in a take, whoever plays. */
export interface DuePlan {
  readonly passages: readonly Passage[];
  readonly tempo: TempoMap;
}

/** How much of it there is. */
export interface TakeLength {
  readonly partials: number;
  readonly notes: number;
}

/** What is due from bar 1 beat 1 up to a time, counted by the beats that each layer is played: about as much. */
export function takeLength(
  { passages, tempo }: DuePlan,
  phrase: Phrase,
  endUs: number,
): TakeLength {
  const length = { partials: 0, notes: 0 };
  const end = Math.max(0, tempo.beatAt(endUs));
  let from = 0;
  passages.forEach(({ layer }, i) => {
    const next = passages[i + 1];
    const to = next ? Math.min(end, passageStart(phrase, next).valueOf()) : end;
    const partials = Math.max(0, to - from) * gridAt(phrase, layer).subdivision;
    length.partials += partials;
    length.notes += partials * notesAPartial(phrase, layer);
    from = Math.max(from, to);
  });
  return length;
}

/** As many characters as a file must have for so much of it to be judged. */
export const charactersFor = ({ partials, notes }: TakeLength): number =>
  Math.ceil((notes + NOTES_A_PARTIAL * partials) / NOTES_A_CHARACTER);

/** Whether so much is judged of a file of so many characters. */
export const fitsFile = (length: TakeLength, characters: number): boolean =>
  charactersFor(length) <= Math.max(SHORTEST_FILE, characters);

/** Whether a take goes on to a time whose file has so many characters so far. */
export function hasRoom(plan: DuePlan, phrase: Phrase, endUs: number, characters: number): boolean {
  const length = takeLength(plan, phrase, endUs);
  return endUs <= DAY_US && length.partials <= MOST_PARTIALS && fitsFile(length, characters);
}

/** Of a cycle, all its strokes counted, those too that are silent in it and may sound in another. */
function notesAPartial(phrase: Phrase, layer: number): number {
  const strokes = layerStack(phrase, layer).strokes(1);
  return strokes.reduce((notes, { graces }) => notes + 1 + graces.length, 0) / phrase.cycle;
}
