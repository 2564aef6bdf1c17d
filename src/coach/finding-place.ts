import type { Plan } from '../match/plan';
import type { TimedNote } from '../match/timed-note';
import { gridAt } from '../phrase/model/grid';
import type { Phrase } from '../phrase/model/phrase';
import { isAsWritten } from '../score/figures';
import type { Judgement } from '../score/judge';
import type { JudgedNote } from '../score/judged-note';
import { groupBy } from '../time/group-by';
import type { Finding } from './finding';
import { findingExercise, partialOf, SLOWER, type FindingExercise } from './finding-exercise';
import type { FindingCode } from './wording';

/** Where in a take a finding shows, and what is to be heard there. */
export interface FindingPlace {
  /** Its first note there. */
  readonly first: TimedNote;
  /** The layer from that note's bar on, at the tempo played to there and with the click; and slower. */
  readonly asWritten: WrittenPassage;
  readonly slower: WrittenPassage;
  /** What its advice names; undefined where that is nothing to practise. */
  readonly exercise: FindingExercise | undefined;
}

/** A layer (1-based) of a phrase from a bar on, with the click. */
export interface WrittenPassage {
  readonly phrase: Phrase;
  readonly layer: number;
  readonly bpm: number;
  readonly click: true;
  /** 1-based, from where the layer began; absent where it is heard from its beginning, pickup included. */
  readonly fromBar?: number;
}

/** Told of where strokes fall: seen best where they fall farthest off. */
const OF_TIME: ReadonlySet<FindingCode> = new Set([
  'other tempo',
  'drift',
  'silent bars',
  'all strokes off',
  'swing',
  'partial off',
  'limb off',
  'voice off',
  'level off',
  'layer off',
  'position off',
  'transition off',
  'unison off',
  'spread apart',
  'spread grows',
  'spread',
]);

/**
 * Where a finding shows: of time, the cycle in which its notes are farthest off, all together; else the first of its notes that is
 * not as written. Undefined for a finding that is about no notes of the judgement.
 *
 * @example ((due) => findingPlace({ passages: [{ fromBar: 1 }], tempo: steadyTempo(88) }, { notes: [{ due }] }, { code: 'spread', notes: [due] }).slower.bpm)({ passage: 0, layer: 1, note: { bar: 3, cycle: 1, onset: beats(8) } }) // => 66
 */
export function findingPlace(
  plan: Plan,
  { notes: all }: Judgement,
  { code, drill, notes }: Pick<Finding, 'code' | 'drill' | 'notes'>,
): FindingPlace | undefined {
  const { phrase, tempo } = plan;
  const about = new Set(notes);
  const own = all.filter(({ due }) => about.has(due));
  const shows = OF_TIME.has(code) ? farthestOff(own) : own.find((one) => !isAsWritten(one));
  const first = (shows ?? own[0])?.due;
  if (!first) return undefined;
  const fromBar = writtenBar(plan, first);
  const asWritten: WrittenPassage = {
    phrase,
    layer: first.layer,
    bpm: tempo.bpmAt(first.note.onset),
    click: true,
    ...(fromBar < 1 ? {} : { fromBar }),
  };
  return {
    first,
    asWritten,
    slower: { ...asWritten, bpm: SLOWER * asWritten.bpm },
    exercise: findingExercise(plan, { drill, notes }, first),
  };
}

/** The bar of its layer that a note is written in, 1-based, from where the layer begins: where the target waited it is another than it falls in. */
function writtenBar({ phrase, passages }: Plan, due: TimedNote): number {
  const { fromBar, latePartials } = passages[due.passage]!;
  if (latePartials === undefined) return due.note.bar - fromBar + 1;
  const grid = gridAt(phrase, due.layer);
  return Math.floor(partialOf(phrase, grid, due) / grid.barPartials) + 1;
}

/** The first note of the cycle whose offsets add up to most, either way; the earlier of two alike. */
function farthestOff(notes: readonly JudgedNote[]): JudgedNote | undefined {
  const cycles = groupBy(notes, ({ due: { passage, note } }) => `${passage}:${note.cycle}`);
  let farthest: { first: JudgedNote | undefined; us: number } | undefined;
  for (const cycle of cycles.values()) {
    const us = cycle.reduce((sum, { offsetUs = 0 }) => sum + Math.abs(offsetUs), 0);
    if (us > (farthest?.us ?? -1)) farthest = { first: cycle[0], us };
  }
  return farthest?.first;
}
