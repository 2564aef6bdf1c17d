/** A value, or what is wrong with the input, as data. `throw` is kept for our own mistakes. */
export type Result<T, E> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly errors: readonly E[] };

/** @example good(3) // => { ok: true, value: 3 } */
export const good = <T>(value: T): Result<T, never> => ({ ok: true, value });

/** @example bad('x') // => { ok: false, errors: ['x'] } */
export const bad = <E>(...errors: readonly E[]): Result<never, E> => ({ ok: false, errors });
