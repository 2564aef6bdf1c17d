/** What sounds on each partial on which something does, in words that are the same where it is. */
export type SoundLines = ReadonlyMap<number, string>;

/** Notes by partial, each in words; those at once in any order. */
export function soundLines(notes: Iterable<readonly [partial: number, words: string]>): SoundLines {
  const lines = new Map<number, string[]>();
  for (const [partial, words] of notes) {
    const here = lines.get(partial);
    if (here) here.push(words);
    else lines.set(partial, [words]);
  }
  return new Map([...lines].map(([partial, here]) => [partial, here.sort().join('; ')]));
}

/** Whether all that sounds from one partial to before another is the same again after so many partials. */
export function comesAgain(lines: SoundLines, from: number, to: number, partials: number): boolean {
  for (const [partial, line] of lines) {
    if (partial < from || partial >= to) continue;
    if (partial + partials < to && lines.get(partial + partials) !== line) return false;
    if (partial - partials >= from && lines.get(partial - partials) !== line) return false;
  }
  return true;
}
