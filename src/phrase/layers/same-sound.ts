import { lcm } from '../../time/whole';
import { straightOr } from '../model/swing';
import type { LayeredPhrase, CycleNote } from './cycle-pattern';

/** Whether two notes of a cycle ask the same limb to go to the same place at the same time, however loud. */
export const isSameMotion = (a: CycleNote, b: CycleNote): boolean =>
  a.partial === b.partial &&
  a.graceStep === b.graceStep &&
  a.limb === b.limb &&
  a.voice === b.voice;

const isSameNote = (a: CycleNote, b: CycleNote): boolean =>
  isSameMotion(a, b) && a.level === b.level && a.graceOf === b.graceOf;

/** Cycles until two phrases both repeat; Infinity when that is beyond counting. */
const cyclesOfBoth = (a: LayeredPhrase, b: LayeredPhrase): number =>
  Number.isFinite(a.period + b.period) ? lcm(a.period, b.period) : Infinity;

/** Whether the notes of two phrases are alike in one cycle after the other, until both repeat or for so many cycles. */
export function areAlike(
  a: LayeredPhrase,
  b: LayeredPhrase,
  isSame: (a: CycleNote, b: CycleNote) => boolean,
  mostCycles: number,
): boolean {
  const cycles = Math.min(mostCycles, cyclesOfBoth(a, b));
  for (let cycle = 0; cycle <= cycles; cycle++) {
    const notes = a.pattern(cycle);
    const others = b.pattern(cycle);
    if (notes === others) continue;
    if (notes.length !== others.length || !notes.every((note, i) => isSame(note, others[i]!)))
      return false;
  }
  return true;
}

/**
 * Whether two phrases are seen to ask for the same notes on the same grid for ever, whichever layers made them: false
 * as well when both together repeat too late to be looked through. Patterns, which may have cycles of other lengths,
 * are held against each other by samePattern.
 */
export function soundsSame(a: LayeredPhrase, b: LayeredPhrase): boolean {
  const isSameGrid =
    a.phrase.cycle === b.phrase.cycle &&
    a.grid.subdivision === b.grid.subdivision &&
    a.grid.displace === b.grid.displace &&
    straightOr(a.grid.swing).equals(straightOr(b.grid.swing));
  const cycles = cyclesOfBoth(a, b);
  return (
    isSameGrid &&
    cycles <= Math.min(a.cyclesInReach, b.cyclesInReach) &&
    areAlike(a, b, isSameNote, cycles)
  );
}
