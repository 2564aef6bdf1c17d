/**
 * Words to choose from, each under its value, which is its own name unless told.
 *
 * @example namedOptions(['R', 'L'], (limb) => `${limb} hand`) // => [{ value: 'R', name: 'R hand' }, { value: 'L', name: 'L hand' }]
 */
export const namedOptions = <T extends string>(
  values: readonly T[],
  name: (value: T) => string = (value) => value,
) => values.map((value) => ({ value, name: name(value) }));
