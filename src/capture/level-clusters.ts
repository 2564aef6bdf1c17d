import type { LevelBoundaries } from '../kit/kit';
import { DEFAULT_BOUNDARIES, LEVELS, type Level } from '../phrase/model/level';
import { countOf } from '../words/words';
import type { ConsensusNote } from './consensus';

export interface LevelClusters {
  /** One a note, in the order the velocities came. */
  readonly levels: readonly Level[];
  /** How far the clusters stand apart against their own width, and how clear their names are, 0 to 1. */
  readonly confidence: number;
}

/** Velocities of one level scatter this far from note to note, and a cluster more must save this much. Chosen, not measured. */
const SCATTER = 8;
const CLUSTER = 4;
/** Two levels closer than this, in velocity, are one. Chosen, not measured. */
const LEAST_STEP = 16;

/**
 * The levels of one voice's notes by their velocities: the best cut of the sorted velocities into one,
 * two or three clusters (least squares, exactly), named by the boundaries between ghost, tap and accent.
 *
 * @example findLevels([30, 110, 28, 112]).levels // => ['ghost', 'accent', 'ghost', 'accent']
 */
export function findLevels(
  velocities: readonly number[],
  boundaries: LevelBoundaries = DEFAULT_BOUNDARIES,
): LevelClusters {
  const sorted = [...velocities].sort((a, b) => a - b);
  const cuts = bestCuts(sorted);
  const ends = [...cuts, sorted.length];
  const centres = ends.map((end, k) => mean(sorted.slice(k === 0 ? 0 : ends[k - 1]!, end)));
  const names = nameLevels(centres, boundaries);
  const edges = cuts.map((cut) => (sorted[cut - 1]! + sorted[cut]!) / 2);
  const levels = velocities.map((velocity) => names[edges.filter((e) => velocity > e).length]!);
  const gaps = edges.map((edge, k) => Math.min(edge - centres[k]!, centres[k + 1]! - edge));
  const fromBoundary = centres.map((centre) =>
    Math.min(
      Math.abs(centre - boundaries.ghostMax - 0.5),
      Math.abs(centre - boundaries.accentMin + 0.5),
    ),
  );
  const named = centres.length === 3 ? Infinity : Math.min(...fromBoundary);
  const clear = Math.min(1, Math.min(Infinity, ...gaps) / SCATTER, named / SCATTER);
  return { levels, confidence: clear };
}

/** Starts of the second and third cluster in sorted velocities; none where one level is enough. */
function bestCuts(sorted: readonly number[]): number[] {
  const cost = costs(sorted);
  const n = sorted.length;
  let best = { cuts: [] as number[], cost: cost(0, n) + CLUSTER };
  const middle = (from: number, to: number) => mean(sorted.slice(from, to));
  const apart = (from: number, cut: number, to: number) =>
    middle(cut, to) - middle(from, cut) >= LEAST_STEP;
  for (let a = 1; a < n; a++) {
    const two = cost(0, a) + cost(a, n) + 2 * CLUSTER;
    if (two < best.cost && apart(0, a, n)) best = { cuts: [a], cost: two };
    for (let b = a + 1; b < n; b++) {
      const three = cost(0, a) + cost(a, b) + cost(b, n) + 3 * CLUSTER;
      if (three < best.cost && apart(0, a, b) && apart(a, b, n))
        best = { cuts: [a, b], cost: three };
    }
  }
  return best.cuts;
}

/** Squares about the mean of a stretch of sorted velocities, in units of the scatter. */
function costs(sorted: readonly number[]) {
  const sums = [0];
  const squares = [0];
  for (const v of sorted) {
    sums.push(sums.at(-1)! + v);
    squares.push(squares.at(-1)! + v * v);
  }
  return (from: number, to: number): number => {
    const sum = sums[to]! - sums[from]!;
    return (squares[to]! - squares[from]! - (sum * sum) / (to - from)) / (2 * SCATTER * SCATTER);
  };
}

/** Names for one to three clusters, softest first: by the boundaries, and never the same name twice. */
function nameLevels(centres: readonly number[], boundaries: LevelBoundaries): readonly Level[] {
  if (centres.length === 3) return LEVELS;
  const names = centres.map((centre) => levelAt(centre, boundaries));
  if (names.length < 2 || names[0] !== names[1]) return names;
  return names[0] === 'ghost' ? ['ghost', 'tap'] : ['tap', 'accent'];
}

const levelAt = (velocity: number, { ghostMax, accentMin }: LevelBoundaries): Level =>
  velocity < ghostMax + 0.5 ? 'ghost' : velocity >= accentMin - 0.5 ? 'accent' : 'tap';

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

export interface NoteLevels {
  /** One a note. */
  readonly levels: readonly Level[];
  readonly confidence: number;
  readonly sentence: string;
}

/** A note whose strokes agree less than this has perhaps two levels in turn. Chosen, not measured. */
const DOUBTFUL_BELOW = 0.8;

/** The levels of notes, voice by voice, as sure as the least sure voice. */
export function levelsOf(notes: readonly ConsensusNote[]): NoteLevels {
  const levels = notes.map((): Level => 'tap');
  let confidence = 1;
  for (const voice of new Set(notes.map((note) => note.voice))) {
    const indices = notes.flatMap((note, i) => (note.voice === voice ? [i] : []));
    const found = findLevels(indices.map((i) => notes[i]!.velocity));
    found.levels.forEach((level, k) => (levels[indices[k]!] = level));
    confidence = Math.min(confidence, found.confidence);
  }
  const least = notes.reduce((low, { evenness }) => Math.min(low, evenness), 1);
  confidence = Math.min(confidence, least < DOUBTFUL_BELOW ? least / 2 : 1);
  const counts = LEVELS.map((level) => [levels.filter((l) => l === level).length, level] as const);
  const sentence = counts
    .filter(([count]) => count > 0)
    .map(([count, level]) => countOf(count, level))
    .join(', ');
  return { levels, confidence, sentence };
}
