import type { Change, Phrase, Selector } from '../model/phrase';

/** Notes that a cycle and its pickup have at most. */
export interface NoteCount {
  readonly mains: number;
  readonly graces: number;
}

/** What laying a layer on one cycle takes. */
export interface LayerWork {
  /** Once with the layer on. */
  readonly notes: NoteCount;
  /** Selections laid against a note; copying a note is as much. */
  readonly looks: number;
}

/** Entries of a list that are gone through as quickly as a look is. Measured: 2 ns each, half of them as a rule. */
const ENTRIES_A_LOOK = 128;
/** Looks that reading a beat of a selector takes, and seeing whether a number of a stroke is met. Measured: 2 µs. */
const LOOKS_AN_ENTRY = 10;

/** The notes of a cycle of the bare grouping. */
export function rootNotes({ grouping, cycle }: Phrase): NoteCount {
  let mains = 0;
  let graces = 0;
  for (let partial = 0; partial < cycle; partial++)
    for (const stroke of grouping[partial % grouping.length]!) {
      mains++;
      graces += stroke.graces.length;
    }
  return { mains, graces };
}

/** What it takes to lay changes on a cycle of so many notes: never less, in cycles of every kind. */
export function layerWork(changes: readonly Change[], under: NoteCount): LayerWork {
  let notes = under;
  let looks = notes.mains + notes.graces;
  for (const change of changes) {
    notes = countWith(notes, change);
    const all = notes.mains + notes.graces;
    const { perNote, perCycle } = 'where' in change ? selectorWork(change.where) : ONE_LOOK;
    looks += all * perNote + perCycle;
  }
  return { notes, looks: Math.ceil(looks) };
}

function countWith({ mains, graces }: NoteCount, change: Change): NoteCount {
  switch (change.kind) {
    case 'add':
      return { mains: mains + change.add.length, graces };
    case 'pickup':
      return { mains: mains + change.pickup.length, graces };
    case 'set':
      return change.set.grace === 'flam' || change.set.grace === 'drag'
        ? { mains, graces: Math.max(graces, 2 * mains) }
        : { mains, graces };
    default:
      return { mains, graces };
  }
}

const ONE_LOOK = { perNote: 1, perCycle: 0 };

function selectorWork({ positions, nth, beats, every, not, any = [] }: Selector) {
  const numbers = nth?.length ?? 0;
  const times = beats?.length ?? 0;
  const entries = (positions?.length ?? 0) + numbers + times + (every?.at.length ?? 0);
  let perNote = 1 + entries / ENTRIES_A_LOOK;
  let perCycle = (numbers + times) * LOOKS_AN_ENTRY;
  for (const inside of not ? [not, ...any] : any) {
    const work = selectorWork(inside);
    perNote += work.perNote;
    perCycle += work.perCycle;
  }
  return { perNote, perCycle };
}
