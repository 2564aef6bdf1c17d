import { startingVoice } from '../layers/layer-stroke';
import { freeHand, type Limb, LIMBS } from '../model/limb';
import { divisors } from '../../time/whole';
import { MAX_CYCLE } from '../model/phrase-file';
import { repeatLength } from '../model/repeat-length';
import type { PatternNote, TargetPattern } from './target-pattern';

/** A grouping that could be the root of a pattern, and what it leaves to be added. */
export interface Root {
  readonly cycle: number;
  /** Whether the grouping writes the grace notes, or changes bring them. */
  readonly withGraces: boolean;
  /** The strokes of each step: a limb with the hands of its grace notes ahead of it, such as "K" or "LLR". */
  readonly steps: readonly (readonly string[])[];
  /** Strokes that do not sound each time they come round, by their partial in the pattern. */
  readonly rests: readonly { readonly partial: number; readonly limb: Limb }[];
  /** Grace notes of the grouping that do not, over the whole pattern. */
  readonly graceRests: number;
  /** Words of grouping, cycle and the strokes that are not in the grouping: no proposal on it has fewer. */
  readonly words: number;
}

/** Roots that are worked out in full, beside the last resort. Chosen, not measured: enough for every phrase of the library. */
const MOST_ROOTS = 10;
/** Roots with rests beside them, and how large a part of their strokes may rest unless nothing else is left. Chosen. */
const MOST_WITH_RESTS = 2;
const MOST_RESTS = 1 / 4;
/** Notes times roots: long patterns have fewer. Chosen so that an answer comes at once. */
const MOST_WORK = 1000;

/**
 * Roots for a pattern, fewest words first; at the end the last resorts, the whole of the
 * shortest cycle in one grouping and the whole of the longest. A cycle is any part of the pattern that its limbs repeat
 * after; a grouping of any length keeps what sounds each time it comes round, most of the strokes at
 * least. Where limbs do not repeat all the same, strokes that sound now and then may stand in the grouping and
 * rest at times. Of all cycles only that of `only` partials where it is given.
 */
export function findRoots(pattern: TargetPattern, only?: number): readonly Root[] {
  const { notes, cyclePartials } = pattern;
  const cycles = cyclesOf(pattern, only);
  const hasGraces = notes.some((note) => note.graces.length > 0);
  const roots: Root[] = [];
  const whole: Root[] = [];
  for (const cycle of cycles)
    for (const withGraces of hasGraces ? [false, true] : [false]) {
      const columns = cycleColumns(notes, cyclePartials, cycle, withGraces);
      for (let length = 1; columns && length <= cycle; length++) {
        const root = rootOf(columns, length, withGraces);
        if (!root) continue;
        roots.push(root);
        if (length === cycle && withGraces === hasGraces) whole.push(root);
      }
    }
  roots.sort((a, b) => a.words - b.words || a.cycle - b.cycle || a.steps.length - b.steps.length);
  const most = Math.min(MOST_ROOTS, Math.ceil(MOST_WORK / notes.length));
  const kept = roots.slice(0, most);
  const lastResorts = [...new Set([...whole.slice(0, 1), ...whole.slice(-1)])];
  const exact = [...kept, ...lastResorts.filter((root) => !kept.includes(root))];
  return [...exact, ...rootsWithRests(pattern, cycles, exact.length === 0)];
}

/** Cycles that the pattern comes out even with, shortest first. */
const cyclesOf = (
  { cyclePartials, displace = 0 }: TargetPattern,
  only: number | undefined,
): readonly number[] =>
  divisors(cyclePartials).filter(
    (cycle) => cycle === (only ?? cycle) && cycle <= MAX_CYCLE && cycle > Math.abs(displace),
  );

/**
 * Roots of everything that sounds at a place of the cycle at some time, fewest rests first: with the grace notes left
 * to changes, and, where only a grouping tells two of a stroke apart, with the most that it has when it comes round.
 */
function rootsWithRests(
  pattern: TargetPattern,
  cycles: readonly number[],
  isLastResort: boolean,
): readonly Root[] {
  const { notes } = pattern;
  const hasUnlikeGraces = notes.some((note) => new Set(writtenGraces(note)).size > 1);
  return (hasUnlikeGraces ? [false, true] : [false]).flatMap((withGraces) =>
    cycles
      .flatMap((cycle) => rootWithRests(pattern, cycle, withGraces) ?? [])
      .filter(
        ({ rests }) => isLastResort || rests.length <= MOST_RESTS * (rests.length + notes.length),
      )
      .sort((a, b) => restCount(a) - restCount(b) || a.cycle - b.cycle)
      .slice(0, MOST_WITH_RESTS),
  );
}

const restCount = ({ rests, graceRests }: Root): number => rests.length + graceRests;

/** Undefined when nothing rests, or when a stroke has other grace notes another time and not only fewer. */
function rootWithRests(
  { notes, cyclePartials }: TargetPattern,
  cycle: number,
  withGraces: boolean,
): Root | undefined {
  const sounding = new Set(notes.map(({ partial, limb }) => `${partial} ${limb}`));
  const columns = Array.from({ length: cycle }, () => new Map<Limb, string>());
  for (const note of notes) {
    const column = columns[note.partial % cycle]!;
    const text = strokeText(note, withGraces);
    const other = column.get(note.limb) ?? text;
    const longer = text.length > other.length ? text : other;
    if (!longer.endsWith(text) || !longer.endsWith(other)) return undefined;
    column.set(note.limb, longer);
  }
  const rests: Root['rests'][number][] = [];
  for (let partial = 0; partial < cyclePartials; partial++)
    for (const limb of columns[partial % cycle]!.keys())
      if (!sounding.has(`${partial} ${limb}`)) rests.push({ partial, limb });
  let graceRests = 0;
  for (const note of notes)
    graceRests +=
      columns[note.partial % cycle]!.get(note.limb)!.length - strokeText(note, withGraces).length;
  if (rests.length + graceRests === 0) return undefined;
  const steps = columns.map((column) => LIMBS.flatMap((limb) => column.get(limb) ?? []));
  const length = repeatLength(steps.map((step) => step.join('+')));
  const words = written(steps.slice(0, length)) + (cycle === length ? 0 : 1);
  return { cycle, withGraces, steps: steps.slice(0, length), rests, graceRests, words };
}

const written = (steps: Root['steps']): number =>
  steps.reduce((sum, step) => sum + Math.max(1, step.join('').length), 0);

/** A stroke as a root has it, with the hands of its grace notes or without. */
const strokeText = (note: PatternNote, withGraces: boolean): string =>
  withGraces ? writtenGraces(note).join('') + note.limb : note.limb;

/**
 * The hands that a grouping writes for a stroke's grace notes: two of one hand that sound unlike start as one of each,
 * or nothing could tell them apart.
 */
function writtenGraces({ graces, graceSounds }: PatternNote): readonly Limb[] {
  const [first, second] = graces;
  if (first !== second || !graceSounds) return graces;
  const [one, other] = graceSounds;
  if (one?.voice === other?.voice && one?.level === other?.level) return graces;
  return [freeHand(first!), second!];
}

/** What a root has where a note is: its stroke with those of its grace notes that it has there at some time, if it has it. */
export const rootStroke = (root: Root, note: PatternNote): string | undefined => {
  const text = strokeText(note, root.withGraces);
  const step = root.steps[(note.partial % root.cycle) % root.steps.length]!;
  return step.find((stroke) => stroke.endsWith(text));
};

/** The strokes on a partial, each with its words if it is added by itself. */
type Column = ReadonlyMap<string, number>;

/** The strokes on each partial of the cycle, if every cycle has the same. */
function cycleColumns(
  notes: readonly PatternNote[],
  partials: number,
  cycle: number,
  withGraces: boolean,
): readonly Column[] | undefined {
  if ((notes.length * cycle) % partials !== 0) return undefined;
  const columns = Array.from({ length: cycle }, () => new Map<string, number>());
  for (const note of notes) {
    const { partial, limb, voice, level } = note;
    const words = 2 + (voice === startingVoice(limb) ? 0 : 1) + (level === 'accent' ? 1 : 0);
    columns[partial % cycle]!.set(strokeText(note, withGraces), words);
  }
  const strokes = columns.reduce((sum, column) => sum + column.size, 0);
  return strokes * (partials / cycle) === notes.length ? columns : undefined;
}

function rootOf(columns: readonly Column[], length: number, withGraces: boolean): Root | undefined {
  const cycle = columns.length;
  const steps = columns.slice(0, length).map((column, step) =>
    [...column.keys()]
      .filter((stroke) => {
        for (let at = step + length; at < cycle; at += length)
          if (!columns[at]!.has(stroke)) return false;
        return true;
      })
      .sort((a, b) => LIMBS.indexOf(a.at(-1) as Limb) - LIMBS.indexOf(b.at(-1) as Limb)),
  );
  let strokes = 0;
  let added = 0;
  let addedWords = 0;
  const limbs = new Set<string>();
  columns.forEach((column, at) => {
    strokes += column.size;
    for (const [stroke, words] of column) {
      if (steps[at % length]!.includes(stroke)) continue;
      added += 1;
      addedWords += words;
      limbs.add(stroke.at(-1)!);
    }
  });
  if (added * 2 >= strokes) return undefined;
  const words = written(steps) + (cycle === length ? 0 : 1) + 2 * limbs.size + addedWords;
  return { cycle, withGraces, steps, rests: [], graceRests: 0, words };
}

/** The grouping as it is written in a phrase. @example textOfSteps([['LLR', 'K'], []]) // => 'llR+K -' */
export const textOfSteps = (steps: Root['steps']): string =>
  steps
    .map((step) =>
      step.length === 0
        ? '-'
        : step.map((stroke) => stroke.slice(0, -1).toLowerCase() + stroke.at(-1)!).join('+'),
    )
    .join(' ');
