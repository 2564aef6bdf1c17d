import type { Fit, LeftOver } from '../phrase/form/fit-form';
import type { AcrossPartial } from './across-bar';

/** A form that a phrase was written out over. */
export interface WrittenForm {
  readonly kind: Fit['kind'];
  readonly left: LeftOver;
  /** The phrase's cycle before, partials. */
  readonly cycle: number;
  /** All of the form, partials. */
  readonly formPartials: number;
}

/**
 * Partials of a fitted phrase, counted in the cycle that the phrase had: where it is cut or has a tail, its own cycle
 * is as long as the form. A tail and the rest of a form belong to no cycle.
 */
export function countedInCycle(
  partials: readonly AcrossPartial[],
  form: WrittenForm,
): readonly AcrossPartial[] {
  const { kind, left, cycle, formPartials } = form;
  if (kind !== 'cut the last cycle' && kind !== 'add a tail') return partials;
  const end = left.formPartials;
  const isCut = kind === 'cut the last cycle';
  const cyclesEnd = isCut ? end : end - left.remainingPartials;
  const nextCycle = left.cycles + (isCut ? 2 : 1);
  return partials.map((partial) => {
    const at = partial.partial;
    const inCycles = (from: number, first: number) => ({
      ...partial,
      cycle: first + Math.floor((at - from) / cycle),
      position: ((at - from) % cycle) + 1,
    });
    if (at < 0) return partial;
    if (at < cyclesEnd) return inCycles(0, 1);
    if (at >= formPartials) return inCycles(formPartials, nextCycle);
    return at === end ? inCycles(end, nextCycle) : { ...partial, cycle: 0 };
  });
}
