import { MAX_CYCLE } from '../../../phrase/model/phrase-file';
import { parseBeats } from '../../../time/beats';

/**
 * Whole numbers from text such as "1, 4-6", ascending; undefined when the text is something else. Empty text is none.
 *
 * @example parseNumbers('1, 4-6') // => [1, 4, 5, 6]
 */
export function parseNumbers(text: string): number[] | undefined {
  const found = new Set<number>();
  for (const part of text.split(/[,;\s]+/).filter((word) => word !== '')) {
    const match = /^([1-9]\d{0,2})(?:[-–]([1-9]\d{0,2}))?$/.exec(part);
    if (!match) return undefined;
    const from = Number(match[1]);
    const to = Number(match[2] ?? match[1]);
    if (to < from || to > MAX_CYCLE) return undefined;
    for (let number = from; number <= to; number++) found.add(number);
  }
  return [...found].sort((a, b) => a - b);
}

/**
 * One whole number from text, as a list; undefined when the text is something else. Empty text is none.
 *
 * @example parseLength('7') // => [7]
 */
export function parseLength(text: string): number[] | undefined {
  const numbers = parseNumbers(text);
  return numbers && numbers.length > 1 ? undefined : numbers;
}

/** @example numbersText([1, 4, 5, 6]) // => '1, 4-6' */
export function numbersText(numbers: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const number of numbers) {
    const last = runs.at(-1);
    if (last && number === last[1] + 1) last[1] = number;
    else runs.push([number, number]);
  }
  return runs
    .flatMap(([from, to]) =>
      to - from < 2 ? (from === to ? [`${from}`] : [`${from}`, `${to}`]) : [`${from}-${to}`],
    )
    .join(', ');
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
