import type { Across } from './across-bar';
import type { ScoreContent } from './score-columns';

/**
 * The column of a score line, from 0, that sounds so many beats after bar 1 beat 1, ahead of it in the pickup; undefined
 * where none of them does. `across` is the same layer laid across the bars.
 */
export function soundingColumn(
  beat: number,
  { columns, pickupColumns }: Pick<ScoreContent, 'columns' | 'pickupColumns'>,
  across: Across,
): number | undefined {
  const partial = across.partialAt(beat);
  const { cycle, position } = across.partials(partial, 1)[0]!;
  const column = partial < 0 ? pickupColumns + partial : pickupColumns + position - 1;
  return column < 0 || (partial >= 0 && cycle < 1) || column >= columns.length ? undefined : column;
}
