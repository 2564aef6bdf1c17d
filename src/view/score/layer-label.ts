import type { Phrase } from '../../phrase/model/phrase';
import { scoreContent, type ScoreNote } from '../../notation/score-columns';

/** A score line, or the sheet of a layer, in words. */
export const notesLabel = (
  layer: number,
  notes: readonly ScoreNote[],
  nameOf: (note: ScoreNote) => string,
): string => `Score line, layer ${layer}: ${notes.map(nameOf).join('; ')}.`;

/** One cycle of a layer (1-based) in words; `changed` are the keys of the notes that the layer changed. */
export function layerLabel(phrase: Phrase, layer: number, changed: ReadonlySet<string>): string {
  const notes = scoreContent(phrase, layer).columns.flatMap((column) => column.notes);
  return notesLabel(layer, notes, ({ name, key }) =>
    changed.has(key) ? `${name}, changed` : name,
  );
}
