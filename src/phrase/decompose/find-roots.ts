import { startingVoice } from '../draft';
import { LIMBS, type Limb } from '../limb';
import { MAX_CYCLE } from '../phrase-file';
import type { PatternNote, TargetPattern } from './target-pattern';

/** A grouping that could be the root of a pattern, and what it leaves to be added. */
export interface Root {
  readonly cycle: number;
  /** Whether the grouping writes the grace notes, or changes bring them. */
  readonly withGraces: boolean;
  /** The strokes of each step: a limb with the hands of its grace notes ahead of it, such as "K" or "LLR". */
  readonly steps: readonly (readonly string[])[];
  /** Words of grouping, cycle and the strokes that are not in the grouping: no proposal on it has fewer. */
  readonly words: number;
}

/** Roots that are worked out in full, beside the last resort. Chosen, not measured: enough for every phrase of the library. */
const MOST_ROOTS = 10;
/** Notes times roots: long patterns have fewer. Chosen so that an answer comes at once. */
const MOST_WORK = 1000;

/**
 * Roots for a pattern, fewest words first; at the end the last resort, all of the pattern in one
 * grouping, if it is not too long for that. A cycle is any part of the pattern that its limbs repeat
 * after; a grouping of any length keeps what sounds each time it comes round, most of the strokes at
 * least. No cycle is shorter than `shortest` partials.
 */
export function findRoots(pattern: TargetPattern, shortest = 1): readonly Root[] {
  const { notes, cyclePartials, displace = 0 } = pattern;
  const hasGraces = notes.some((note) => note.graces.length > 0);
  const roots: Root[] = [];
  const whole: Root[] = [];
  for (let cycle = shortest; cycle <= Math.min(cyclePartials, MAX_CYCLE); cycle++) {
    if (cyclePartials % cycle !== 0 || Math.abs(displace) >= cycle) continue;
    for (const withGraces of hasGraces ? [false, true] : [false]) {
      const columns = cycleColumns(notes, cyclePartials, cycle, withGraces);
      for (let length = 1; columns && length <= cycle; length++) {
        const root = rootOf(columns, length, withGraces);
        if (!root) continue;
        roots.push(root);
        if (length === cyclePartials && withGraces === hasGraces) whole.push(root);
      }
    }
  }
  roots.sort((a, b) => a.words - b.words || a.cycle - b.cycle || a.steps.length - b.steps.length);
  const most = Math.min(MOST_ROOTS, Math.ceil(MOST_WORK / notes.length));
  const kept = roots.slice(0, most);
  return [...kept, ...whole.filter((root) => !kept.includes(root))];
}

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
  for (const { partial, limb, voice, level, graces } of notes) {
    const words = 2 + (voice === startingVoice(limb) ? 0 : 1) + (level === 'accent' ? 1 : 0);
    columns[partial % cycle]!.set(withGraces ? graces.join('') + limb : limb, words);
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
  const written = steps.reduce((sum, step) => sum + Math.max(1, step.join('').length), 0);
  const words = written + (cycle === length ? 0 : 1) + 2 * limbs.size + addedWords;
  return { cycle, withGraces, steps, words };
}

/** The grouping as it is written in a phrase. @example groupingText([['LLR', 'K'], []]) // => 'llR+K -' */
export const groupingText = (steps: Root['steps']): string =>
  steps
    .map((step) =>
      step.length === 0
        ? '-'
        : step.map((stroke) => stroke.slice(0, -1).toLowerCase() + stroke.at(-1)!).join('+'),
    )
    .join(' ');
