import type { TimedNote } from '../../../src/match/timed-note';
import { remainder } from '../../../src/time/whole';
import { SAME_NOTES } from './naming';

/** Notes that one cause would touch, by the name of the cause. */
export type Causes = ReadonlyMap<string, ReadonlySet<TimedNote>>;

/** Which partial of the beat (from 1) a note is written on, before any swing. */
export const partialOf = ({ note }: TimedNote, subdivision: number): number =>
  remainder(Math.round((note.beat.valueOf() - 1) * subdivision), subdivision) + 1;

/** Notes in time order by when they are due. */
function momentsOf(notes: readonly TimedNote[]): TimedNote[][] {
  const moments: TimedNote[][] = [];
  for (const due of notes) {
    const last = moments.at(-1);
    if (last?.[0]!.timeUs === due.timeUs) last.push(due);
    else moments.push([due]);
  }
  return moments;
}

/** Notes with the one note before them that is alone at its time, like themselves, by "A to B". */
export function transitionsOf(notes: readonly TimedNote[]): Causes {
  const causes = new Map<string, Set<TimedNote>>();
  const moments = momentsOf(notes);
  moments.forEach((now, i) => {
    const before = moments[i - 1];
    if (now.length > 1 || before?.length !== 1) return;
    const name = `${before[0]!.note.voice} to ${now[0]!.note.voice}`;
    causes.set(name, (causes.get(name) ?? new Set()).add(now[0]!));
  });
  return causes;
}

/** Notes that sound together with another. */
export const unisonsOf = (notes: readonly TimedNote[]): TimedNote[] =>
  momentsOf(notes).flatMap((now) => (now.length > 1 ? now : []));

/** Everything that a fault can hang on. */
export function causesOf(notes: readonly TimedNote[], subdivision: number, layer: number): Causes {
  const causes = new Map<string, Set<TimedNote>>();
  const add = (name: string, due: TimedNote) =>
    causes.set(name, (causes.get(name) ?? new Set()).add(due));
  for (const due of notes) {
    const { limb, voice, level, position, layers } = due.note;
    add(`limb ${limb}`, due);
    add(`voice ${voice}`, due);
    add(`level ${level}`, due);
    add(`partial ${partialOf(due, subdivision)}`, due);
    add(`position ${position}`, due);
    if (layers.includes(layer)) add(`layer ${layer}`, due);
  }
  for (const [name, own] of transitionsOf(notes)) causes.set(`transition ${name}`, new Set(own));
  for (const due of unisonsOf(notes)) add(`unisons, ${due.note.limb}`, due);
  return causes;
}

/** Notes in common from which on two causes are hard to tell apart where they are not the same. Chosen, not measured. */
const NEARLY = 0.75;

/** Other causes that touch the same notes but for one or two in all, or one or two a bar and hardly a quarter of them. */
export function nearlyAlike(
  touched: ReadonlySet<TimedNote>,
  causes: Causes,
  bars: number,
): { readonly name: string; readonly apart: number }[] {
  return [...causes].flatMap(([name, notes]) => {
    const both = [...notes].filter((due) => touched.has(due)).length;
    const either = notes.size + touched.size - both;
    const apart = either - both;
    const share = both / either;
    const isNear = apart <= 2 ? both > 0 : apart <= 2 * bars && share >= NEARLY;
    return isNear && share < SAME_NOTES ? [{ name, apart }] : [];
  });
}
