/**
 * The word that needs the fewest letters added, dropped or replaced to become another (Levenshtein
 * distance); the first of equals, and ahead of them all one that the text is a part of. Capital letters
 * count as small ones.
 *
 * @throws RangeError when there are no words.
 * @example nearestWord('flor tom', ['high tom', 'floor tom']) // => 'floor tom'
 */
export function nearestWord<T extends string>(text: string, words: readonly T[]): T {
  const small = text.toLowerCase().slice(0, 40);
  const whole = words.find((word) => small !== '' && word.toLowerCase().includes(small));
  if (whole !== undefined) return whole;
  let nearest: { word: T; distance: number } | undefined;
  for (const word of words) {
    const distance = editDistance(small, word.toLowerCase());
    if (!nearest || distance < nearest.distance) nearest = { word, distance };
  }
  if (!nearest) throw new RangeError('no words to choose from');
  return nearest.word;
}

function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(replaced, row[j]! + 1, next[j - 1]! + 1));
    }
    row = next;
  }
  return row[b.length]!;
}
