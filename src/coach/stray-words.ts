import type { StrokesSetAside } from '../kit/pad-fault';
import type { WrongVoicePair } from '../score/groups';
import { countInWords, list, timesText } from '../words/words';

/** @example wrongVoiceWords({ written: 'ride', struck: 'crash', count: 2 }) // => 'Written ride, struck crash: two times.' */
export const wrongVoiceWords = ({ written, struck, count }: WrongVoicePair): string =>
  `Written ${written}, struck ${struck}: ${countInWords(count, 'time')}.`;

/** Pairs told one by one; what is more is only counted, since the page has to stay as it is while playing. Chosen. */
const MOST_PAIRS = 3;

/** The commonest pairs, and how many strokes the others were. */
export function wrongVoicesWords(pairs: readonly WrongVoicePair[]): string[] {
  const sorted = pairs.toSorted((a, b) => b.count - a.count);
  const others = sorted.slice(MOST_PAIRS).reduce((sum, { count }) => sum + count, 0);
  return [
    ...sorted.slice(0, MOST_PAIRS).map(wrongVoiceWords),
    ...(others > 0 ? [`Other wrong voices: ${countInWords(others, 'time')}.`] : []),
  ];
}

/**
 * What was put down to the kit: one sentence, or none.
 *
 * @example setAsideWords({ doubleTriggers: 0, crosstalk: 2 }) // => ["Set aside as the kit's fault and not yours: two crosstalk strokes."]
 */
export function setAsideWords({ doubleTriggers, crosstalk }: StrokesSetAside): string[] {
  const faults = [
    ...(doubleTriggers > 0 ? [countInWords(doubleTriggers, 'double trigger')] : []),
    ...(crosstalk > 0 ? [countInWords(crosstalk, 'crosstalk stroke')] : []),
  ];
  return faults.length > 0 ? [`Set aside as the kit's fault and not yours: ${list(faults)}.`] : [];
}

/**
 * Notes that came without a pad to them, by note number: one sentence, or none.
 *
 * @example unmappedWords(new Map([[58, 1]])) // => ["Not on the kit's note map, and so not judged: note 58 (one time)."]
 */
export function unmappedWords(unmapped: ReadonlyMap<number, number>): string[] {
  if (unmapped.size === 0) return [];
  const notes = [...unmapped].map(([note, count]) => `${note} (${countInWords(count, 'time')})`);
  return [`Not on the kit's note map, and so not judged: note ${notes.join(', ')}.`];
}

/** A struck note that no pad of the kit has. @example unknownNoteWords({ note: 31, strokes: 5 }) // => "Note 31, struck 5 times, is not on your kit's map." */
export const unknownNoteWords = ({
  note,
  strokes,
}: {
  readonly note: number;
  readonly strokes: number;
}): string => `Note ${note}, struck ${timesText(strokes)}, is not on your kit's map.`;
