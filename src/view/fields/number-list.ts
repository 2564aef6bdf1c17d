/**
 * Whole numbers from text such as "1, 4-6", ascending; up to `most`; undefined when the text is something else. Empty text is none.
 *
 * @example parseNumbers('1, 4-6', 99) // => [1, 4, 5, 6]
 */
export function parseNumbers(text: string, most: number): number[] | undefined {
  const found = new Set<number>();
  for (const part of text.split(/[,;\s]+/).filter((word) => word !== '')) {
    const match = /^([1-9]\d{0,5})(?:[-–]([1-9]\d{0,5}))?$/.exec(part);
    if (!match) return undefined;
    const from = Number(match[1]);
    const to = Number(match[2] ?? match[1]);
    if (to < from || to > most) return undefined;
    for (let number = from; number <= to; number++) found.add(number);
  }
  return [...found].sort((a, b) => a - b);
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
