import { parseNumbers } from '../../fields/number-list';
import { MAX_CYCLE } from '../../../phrase/model/phrase-file';
import { parseBeats } from '../../../time/beats';

/** Positions of a cycle from text. @example parsePositions('1, 4-6') // => [1, 4, 5, 6] */
export const parsePositions = (text: string): number[] | undefined => parseNumbers(text, MAX_CYCLE);

/**
 * One whole number from text, as a list; undefined when the text is something else. Empty text is none.
 *
 * @example parseLength('7') // => [7]
 */
export function parseLength(text: string): number[] | undefined {
  const numbers = parsePositions(text);
  return numbers && numbers.length > 1 ? undefined : numbers;
}

/**
 * Beats from text with commas between; undefined when one of them is none. Empty text is none.
 *
 * @example parseBeatList('1, 2 1/2') // => ['1', '2 1/2']
 */
export function parseBeatList(text: string): string[] | undefined {
  const beats = text
    .split(/[,;]/)
    .map((part) => part.trim().replace(/\s+/g, ' '))
    .filter((part) => part !== '');
  return beats.every((beat) => parseBeats(beat) !== undefined) ? beats : undefined;
}
