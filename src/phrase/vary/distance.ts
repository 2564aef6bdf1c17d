import { lcm } from '../../time/whole';
import { layPhrase, type LaidPhrase } from '../cycle-pattern';
import { isHand, LIMBS, type Limb } from '../limb';
import type { Phrase } from '../phrase';
import { laidTimeline, repeatCycles, type TimedNote } from '../timeline';

/**
 * What turning one phrase into another costs, a note put in or taken out being 1. Chosen, not measured: a note moved
 * by half a beat or given another voice is as much as one put in; its level and its grace notes are details.
 */
const MOVE_BY_BEAT = 2;
const VOICE = 1;
const LEVEL = 0.25;
const GRACES = 0.25;
const CYCLE_BEAT = 1;
/** From so many beats on, one note out and another in is no dearer than moving it. */
const FARTHEST_MOVE = 2 / MOVE_BY_BEAT;

/** Cycles compared at most. Chosen, not measured. */
const MOST_CYCLES = 16;

interface Labelled {
  readonly beat: number;
  readonly voice: string;
  readonly level: string;
  readonly graces: string;
}

/**
 * How far two phrases are apart with all their layers on: the least cost, for each limb, of putting notes in or
 * taking them out (1 each), moving them (2 a beat), giving them another voice (1), level or grace notes (1/4 each),
 * which is the labelled edit distance of spike trains (Victor & Purpura, J. Neurophysiol. 76, 1996), taken over the
 * cycles after which both repeat, at most 16, the pickup with them, and divided by their number; plus 1 for each
 * beat by which the cycles differ in length. It is symmetric, and 0 only where the same is played in those cycles.
 */
export const distance = (a: Phrase, b: Phrase): number =>
  laidDistance(laidNotes(layPhrase(a, a.layers.length)), laidNotes(layPhrase(b, b.layers.length)));

/** A phrase's notes as they are compared. */
export interface LaidNotes {
  /** Cycles after which they repeat, at most 16. */
  readonly cycles: number;
  readonly cycleBeats: number;
  /** Of so many cycles, by the order of LIMBS. */
  within(cycles: number): readonly (readonly Labelled[])[];
}

/** The notes of a phrase with its layers laid on; what was worked out once is kept. */
export function laidNotes(laid: LaidPhrase): LaidNotes {
  const known = new Map<number, readonly (readonly Labelled[])[]>();
  return {
    cycles: repeatCycles(laid),
    cycleBeats: laid.phrase.cycle / laid.grid.subdivision,
    within(cycles) {
      let found = known.get(cycles);
      if (!found) {
        const { notes } = laidTimeline(laid, 0, cycles);
        known.set(cycles, (found = LIMBS.map((limb) => labelled(notes, limb))));
      }
      return found;
    },
  };
}

/** See distance. */
export function laidDistance(a: LaidNotes, b: LaidNotes): number {
  const cycles = Math.min(MOST_CYCLES, lcm(a.cycles, b.cycles));
  const one = a.within(cycles);
  const other = b.within(cycles);
  let cost = 0;
  LIMBS.forEach((_, i) => {
    cost += editCost(one[i]!, other[i]!);
  });
  return cost / cycles + Math.abs(a.cycleBeats - b.cycleBeats) * CYCLE_BEAT;
}

/** A limb's main notes, a hand's each with the grace notes ahead of it. */
function labelled(notes: readonly TimedNote[], limb: Limb): Labelled[] {
  const found: Labelled[] = [];
  let graces = '';
  let graceBeat = NaN;
  for (const note of notes) {
    const { beat, voice, level } = note;
    if (note.graceStep > 0) {
      const grace = `${note.limb} ${voice} ${level},`;
      graces = beat === graceBeat ? graces + grace : grace;
      graceBeat = beat;
    } else if (note.limb === limb)
      found.push({ beat, voice, level, graces: isHand(limb) && beat === graceBeat ? graces : '' });
  }
  return found;
}

const changeCost = (a: Labelled, b: Labelled): number =>
  Math.abs(a.beat - b.beat) * MOVE_BY_BEAT +
  (a.voice === b.voice ? 0 : VOICE) +
  (a.level === b.level ? 0 : LEVEL) +
  (a.graces === b.graces ? 0 : GRACES);

function editCost(from: readonly Labelled[], to: readonly Labelled[]): number {
  let previous = new Float64Array(to.length + 1).map((_, j) => j);
  let row = new Float64Array(to.length + 1);
  for (let i = 0; i < from.length; i++) {
    const one = from[i]!;
    row[0] = i + 1;
    for (let j = 0; j < to.length; j++) {
      let cost = Math.min(previous[j + 1]!, row[j]!) + 1;
      const other = to[j]!;
      if (Math.abs(one.beat - other.beat) < FARTHEST_MOVE)
        cost = Math.min(cost, previous[j]! + changeCost(one, other));
      row[j + 1] = cost;
    }
    [previous, row] = [row, previous];
  }
  return previous[to.length]!;
}
