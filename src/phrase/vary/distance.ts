import { lcm } from '../../time/whole';
import type { LayeredPhrase } from '../layers/cycle-pattern';
import { layerStack } from '../layers/layer-stack';
import { LIMBS, type Limb } from '../model/limb';
import type { Phrase } from '../model/phrase';
import { stackTimeline, repeatCycles, type TimelineNote, type Timeline } from '../layers/timeline';

/**
 * What turning one phrase into another costs, a note put in or taken out being 1. Chosen, not measured: a note moved
 * by half a beat or given another voice is as much as one put in; its level and its grace notes are details.
 */
export const DISTANCE_COSTS = {
  moveByBeat: 2,
  voice: 1,
  level: 0.25,
  graces: 0.25,
  cycleBeat: 1,
} as const;
/** From so many beats on, one note out and another in is no dearer than moving it. */
const FARTHEST_MOVE = 2 / DISTANCE_COSTS.moveByBeat;

/** Cycles compared at most. Chosen, not measured. */
const MOST_CYCLES = 16;

interface Labelled {
  readonly beat: number;
  readonly voice: string;
  readonly level: string;
  /** Absent where there are none. */
  readonly graces?: string;
}

/**
 * How far two phrases are apart with all their layers on: the least cost, for each limb, of putting notes in or
 * taking them out (1 each), moving them (2 a beat), giving them another voice (1), level or grace notes (1/4 each),
 * which is the labelled edit distance of spike trains (Victor & Purpura, J. Neurophysiol. 76, 1996), taken over the
 * cycles after which both repeat, at most 16, the pickup with them, and divided by their number; plus 1 for each
 * beat by which the cycles differ in length. It is symmetric, and 0 only where the same is played in those cycles.
 */
export const distance = (a: Phrase, b: Phrase): number =>
  stackDistance(
    stackNotes(layerStack(a, a.layers.length)),
    stackNotes(layerStack(b, b.layers.length)),
  );

/** A phrase's notes as they are compared. */
export interface StackNotes {
  /** Cycles after which they repeat, at most 16. */
  readonly cycles: number;
  readonly cycleBeats: number;
  /** Of so many cycles, by the order of LIMBS. */
  within(cycles: number): readonly (readonly Labelled[])[];
}

/** The notes of a phrase with its layers laid on; what was worked out once is kept, or brought along as `timed`. */
export function stackNotes(laid: LayeredPhrase, timed?: Timeline): StackNotes {
  const known = new Map<number, readonly (readonly Labelled[])[]>();
  return {
    cycles: repeatCycles(laid),
    cycleBeats: laid.phrase.cycle / laid.grid.subdivision,
    within(cycles) {
      let found = known.get(cycles);
      if (!found) {
        const { notes } = timed && timed.period >= cycles ? timed : stackTimeline(laid, 0, cycles);
        known.set(cycles, (found = labelled(notes, cycles)));
      }
      return found;
    },
  };
}

/** See distance. */
export function stackDistance(a: StackNotes, b: StackNotes): number {
  const cycles = Math.min(MOST_CYCLES, lcm(a.cycles, b.cycles));
  const one = a.within(cycles);
  const other = b.within(cycles);
  let cost = 0;
  LIMBS.forEach((_, i) => {
    cost += editCost(one[i]!, other[i]!);
  });
  return cost / cycles + Math.abs(a.cycleBeats - b.cycleBeats) * DISTANCE_COSTS.cycleBeat;
}

/** Each limb's main notes in so many cycles, each with its grace notes. */
function labelled(
  notes: readonly TimelineNote[],
  cycles: number,
): readonly (readonly Labelled[])[] {
  const found: Readonly<Record<Limb, Labelled[]>> = { R: [], L: [], K: [], F: [] };
  const ahead = new Map<Limb, string>();
  for (const note of notes) {
    if (note.cycle > cycles) break;
    const { beat, limb, voice, level, graceOf } = note;
    if (graceOf !== undefined) {
      ahead.set(graceOf, `${ahead.get(graceOf) ?? ''}${limb} ${voice} ${level},`);
      continue;
    }
    const graces = ahead.get(limb);
    ahead.delete(limb);
    found[limb].push(graces === undefined ? note : { beat, voice, level, graces });
  }
  return LIMBS.map((limb) => found[limb]);
}

const changeCost = (a: Labelled, b: Labelled): number =>
  Math.abs(a.beat - b.beat) * DISTANCE_COSTS.moveByBeat +
  (a.voice === b.voice ? 0 : DISTANCE_COSTS.voice) +
  (a.level === b.level ? 0 : DISTANCE_COSTS.level) +
  (a.graces === b.graces ? 0 : DISTANCE_COSTS.graces);

const isSame = (a: Labelled, b: Labelled): boolean =>
  a.beat === b.beat && a.voice === b.voice && a.level === b.level && a.graces === b.graces;

/**
 * What is alike at both ends costs nothing, and a note is compared only with those that it may have been moved
 * from: against all others it is put in or taken out.
 */
function editCost(from: readonly Labelled[], to: readonly Labelled[]): number {
  let start = 0;
  let fromEnd = from.length;
  let toEnd = to.length;
  while (start < fromEnd && start < toEnd && isSame(from[start]!, to[start]!)) start++;
  while (fromEnd > start && toEnd > start && isSame(from[fromEnd - 1]!, to[toEnd - 1]!)) {
    fromEnd--;
    toEnd--;
  }
  // Of the notes of `from` so far against those of `to` before j, for j from `near` to `known`.
  const costs = new Float64Array(toEnd + 1);
  let known = start;
  let near = start;
  let far = start;
  for (let i = start; i < fromEnd; i++) {
    const one = from[i]!;
    while (near < toEnd && one.beat - to[near]!.beat >= FARTHEST_MOVE) near++;
    while (far < toEnd && to[far]!.beat - one.beat < FARTHEST_MOVE) far++;
    for (; known < far; known++) costs[known + 1] = costs[known]! + 1;
    let before = costs[near]!;
    costs[near] = before + 1;
    for (let j = near; j < far; j++) {
      const without = costs[j + 1]!;
      const put = Math.min(without, costs[j]!) + 1;
      costs[j + 1] = Math.min(put, before + changeCost(one, to[j]!));
      before = without;
    }
    known = far;
  }
  return costs[known]! + (toEnd - known);
}
