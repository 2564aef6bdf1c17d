import { isHand } from '../phrase/model/limb';
import type { WrittenNote } from './written-notes';

/** A main note with the grace notes ahead of it, first to sound first. */
export interface GracedNote {
  readonly main: WrittenNote;
  readonly graces: readonly WrittenNote[];
}

/** The most grace notes that a stroke has. */
const MOST_GRACES = 2;

/**
 * Grace notes with their main notes: each goes with the next hand's note, of two at one time with that of the hand that
 * the file names, or on its own drum. Notes in time order; `isGrace` says which may be.
 *
 * @param mostTicks how far ahead of its main note a grace note is, at most
 * @returns the rest are notes without a main note
 */
export function withGraces(
  notes: readonly WrittenNote[],
  isGrace: (note: WrittenNote) => boolean,
  mostTicks: number,
): { readonly graced: readonly GracedNote[]; readonly rest: readonly WrittenNote[] } {
  const mains = notes.filter((note) => !isGrace(note));
  const graces = new Map<WrittenNote, WrittenNote[]>();
  const rest: WrittenNote[] = [];
  let next = 0;
  for (const note of notes) {
    if (!isGrace(note)) continue;
    while (next < mains.length && mains[next]!.tick <= note.tick) next++;
    const main = mainOf(note, mains, next, mostTicks);
    const before = main ? (graces.get(main) ?? []) : [];
    if (main && before.length < MOST_GRACES) graces.set(main, [...before, note]);
    else rest.push(note);
  }
  return { graced: mains.map((main) => ({ main, graces: graces.get(main) ?? [] })), rest };
}

function mainOf(
  grace: WrittenNote,
  mains: readonly WrittenNote[],
  from: number,
  mostTicks: number,
): WrittenNote | undefined {
  let best: WrittenNote | undefined;
  let bestScore = -1;
  for (let i = from; i < mains.length; i++) {
    const main = mains[i]!;
    if (main.tick - grace.tick > mostTicks || (best && main.tick > best.tick)) break;
    if (main.limb !== undefined && !isHand(main.limb)) continue;
    const score = (main.limb === grace.graceOf ? 2 : 0) + (main.voice === grace.voice ? 1 : 0);
    if (score > bestScore) [best, bestScore] = [main, score];
  }
  return best;
}
