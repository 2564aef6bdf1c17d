import { countInWords } from '../../words/words';
import type { Note } from '../../phrase/model/note';

/**
 * Which partial of its beat a note is on, 0-based; not whole where the layer's subdivision has none there.
 *
 * @example partialOfBeat({ beat: beats(7, 3) }, 3) // => 1
 */
export const partialOfBeat = ({ beat }: Pick<Note, 'beat'>, subdivision: number): number =>
  (Number(beat.n % beat.d) * subdivision) / Number(beat.d);

const ORDINALS = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth'];
/** By partials in a beat: what one is called. Common practice, no source. */
const NOUNS: Readonly<Record<number, string>> = {
  2: 'eighth',
  3: 'triplet partial',
  4: 'sixteenth',
};

/**
 * A partial (0-based) of so many in a beat, in the plural; undefined where there is but one.
 *
 * @example partialsName(2, 3) // => 'third triplet partials'
 */
export function partialsName(partial: number, subdivision: number): string | undefined {
  if (subdivision < 2) return undefined;
  if (partial === 0) return 'strokes on the beat';
  if (!Number.isInteger(partial)) return 'strokes between the partials';
  if (subdivision === 2) return 'off-beat eighths';
  const last = partial === subdivision - 1 && subdivision === 4;
  const ordinal = last ? 'last' : (ORDINALS[partial] ?? `${partial + 1}th`);
  return `${ordinal} ${NOUNS[subdivision] ?? `of ${subdivision} partial`}s`;
}

/**
 * So many partials where a beat has `subdivision` of them.
 *
 * @example partialCount(2, 4) // => 'two sixteenths'
 */
export const partialCount = (count: number, subdivision: number): string =>
  countInWords(count, NOUNS[subdivision] ?? (subdivision === 1 ? 'beat' : 'partial'));
