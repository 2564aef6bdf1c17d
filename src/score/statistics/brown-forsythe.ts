import { mean, median, sum } from 'simple-statistics';
import { incompleteBeta } from './incomplete-beta';

/** Whether groups spread alike. */
export interface SpreadTest {
  /** F of the distances from the groups' medians; Infinity where these differ between the groups and nowhere within. */
  readonly w: number;
  readonly df1: number;
  readonly df2: number;
  /** Chance of so large a w where all spread alike. */
  readonly p: number;
}

/**
 * Levene's test about the medians: Brown & Forsythe 1974, JASA 69:364-367; insensitive to what is not normal.
 *
 * @throws RangeError for fewer than two groups, an empty one, or no more values than groups.
 * @example brownForsythe([[1, 2, 3], [2, 4, 6]]).w.toFixed(6) // => '0.800000'
 */
export function brownForsythe(groups: readonly (readonly number[])[]): SpreadTest {
  const count = sum(groups.map(({ length }) => length));
  if (groups.length < 2 || groups.some(({ length }) => length === 0) || count <= groups.length)
    throw new RangeError(`${count} values in ${groups.length} groups have no spreads to compare`);
  const distances = groups.map((group) => {
    const middle = median([...group]);
    return group.map((value) => Math.abs(value - middle));
  });
  const overall = mean(distances.flat());
  const means = distances.map((group) => mean(group));
  const df1 = groups.length - 1;
  const df2 = count - groups.length;
  const between = sum(distances.map(({ length }, g) => length * (means[g]! - overall) ** 2)) / df1;
  const within = sum(distances.flatMap((group, g) => group.map((d) => (d - means[g]!) ** 2))) / df2;
  const w = between === 0 ? 0 : between / within;
  return { w, df1, df2, p: incompleteBeta(df2 / (df2 + df1 * w), df2 / 2, df1 / 2) };
}
