import type { LayerStack } from '../layers/layer-stack';
import type { Limb } from '../model/limb';

/**
 * The strokes of a limb in the first cycle, group by group, each by its number in the cycle (`nth`), after the first
 * `changeCount` changes of the last layer: all of them unless told otherwise. Silent strokes count, as they do there.
 * A group is the grouping's length; the last may be cut off by the cycle's end.
 *
 * @example groupNumbers(layerStack(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R R L K', cycle: 9, layers: [{ name: 'Sticking' }] }).value), 'R') // => [[1, 2], [3, 4], [5]]
 */
export function groupNumbers(
  stack: LayerStack,
  limb: Limb,
  changeCount = stack.grids.length - 1,
): readonly (readonly number[])[] {
  const { cycle, grouping } = stack.phrase;
  const groups: number[][] = Array.from({ length: Math.ceil(cycle / grouping.length) }, () => []);
  let nth = 0;
  for (const stroke of stack.strokesAfter(changeCount, 1))
    if (stroke.limb === limb)
      groups[Math.floor((stroke.position - 1) / grouping.length)]!.push(++nth);
  return groups;
}

/**
 * The numbers in the cycle of what is counted in each group: the second stroke of each, say; undefined where no group has
 * so many.
 *
 * @example nthOfGroups([[1, 2], [3, 4], [5]], [2]) // => [2, 4]
 */
export function nthOfGroups(
  groups: readonly (readonly number[])[],
  numbers: readonly number[],
): number[] | undefined {
  const nth = groups.flatMap((group) => group.filter((_, i) => numbers.includes(i + 1)));
  const most = Math.max(0, ...groups.map((group) => group.length));
  return numbers.every((number) => number <= most) ? nth : undefined;
}

/**
 * The way back: which strokes of each group they are; undefined where it is not the same ones in each.
 *
 * @example numbersInGroups([[1, 2], [3, 4], [5]], [2, 4]) // => [2]
 */
export function numbersInGroups(
  groups: readonly (readonly number[])[],
  nth: readonly number[],
): number[] | undefined {
  const chosen = new Set(nth);
  const most = Math.max(0, ...groups.map((group) => group.length));
  const numbers = Array.from({ length: most }, (_, i) => i + 1).filter((number) =>
    groups.some((group) => group.length >= number && chosen.has(group[number - 1]!)),
  );
  const back = nthOfGroups(groups, numbers) ?? [];
  const isSame = back.length === chosen.size && back.every((number) => chosen.has(number));
  return isSame && numbers.length > 0 ? numbers : undefined;
}
