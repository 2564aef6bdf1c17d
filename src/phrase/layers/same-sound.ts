import { lcm } from '../../time/whole';
import { straightOr } from '../model/swing';
import type { LayeredPhrase, CycleNote } from './cycle-pattern';

/** Cycles that are compared at most. Chosen, not measured: more than any phrase that is practised needs to repeat. */
const MOST_CYCLES = 64;

/** Whether two notes of a cycle ask the same limb to go to the same place at the same time, however loud. */
export const isSameMotion = (a: CycleNote, b: CycleNote): boolean =>
  a.partial === b.partial &&
  a.graceStep === b.graceStep &&
  a.limb === b.limb &&
  a.voice === b.voice;

const isSameNote = (a: CycleNote, b: CycleNote): boolean =>
  isSameMotion(a, b) && a.level === b.level && a.graceOf === b.graceOf;

/** Whether the notes of two phrases are alike in one cycle after the other, until both repeat or for so many cycles. */
export function areAlike(
  a: LayeredPhrase,
  b: LayeredPhrase,
  isSame: (a: CycleNote, b: CycleNote) => boolean,
  mostCycles: number,
): boolean {
  const cycles = Math.min(mostCycles, a.period === b.period ? a.period : lcm(a.period, b.period));
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
 * Whether two phrases ask for the same notes on the same grid, whichever layers made them; patterns, which may have
 * cycles of other lengths, are held against each other by samePattern.
 */
export function soundsSame(a: LayeredPhrase, b: LayeredPhrase): boolean {
  const isSameGrid =
    a.phrase.cycle === b.phrase.cycle &&
    a.grid.subdivision === b.grid.subdivision &&
    a.grid.displace === b.grid.displace &&
    straightOr(a.grid.swing).equals(straightOr(b.grid.swing));
  return isSameGrid && areAlike(a, b, isSameNote, MOST_CYCLES);
}
