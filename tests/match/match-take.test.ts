import fc from 'fast-check';
import { linearSumAssignment } from 'linear-sum-assignment';
import { describe, expect, it } from 'vitest';
import { assign, matchColumns, matchTake } from '../../src/match/match-take';
import {
  changingTrain,
  columns,
  pairCost,
  playedTrain,
  tiedTrain,
  totalCost,
  type Train,
} from './arbitrary-train';
import { runCount } from '../run-count';
import { due, extra } from '../score/cases';

const match = (train: Train) => {
  const { notes, strokes } = columns(train);
  return matchColumns(notes, strokes);
};

/** Least total cost by a general solver: pad the cost matrix so that everyone may stay alone. */
function solverCost(train: Train): number {
  const n = train.notes.length;
  const m = train.strokes.length;
  if (n + m === 0) return 0;
  const reach = train.notes[0]?.reachUs ?? 1;
  const size = n + m;
  const matrix = Array.from({ length: size }, (_, r) =>
    Array.from({ length: size }, (_, c) => {
      if (r < n && c < m) return pairCost(train.notes[r]!, train.strokes[c]!);
      if (r < n) return reach;
      return c < m ? reach : 0;
    }),
  );
  const { rowAssignments } = linearSumAssignment(matrix, { maximaze: false });
  let total = 0;
  rowAssignments.forEach((c, r) => (total += matrix[r]![c]!));
  return total;
}

type Note = Train['notes'][number];

/** Cost of a pair where a missed note costs 1, whatever the note's reach. */
const pairInMisses = (note: Note, stroke: Train['strokes'][number]): number =>
  pairCost(note, stroke) / note.reachUs;

function costInMisses(train: Train, strokeOfNote: ArrayLike<number>): number {
  const pairs = train.notes.map((note, i) => {
    const j = strokeOfNote[i]!;
    return j < 0 ? 1 : pairInMisses(note, train.strokes[j]!) - 1;
  });
  return pairs.reduce((sum, cost) => sum + cost, train.strokes.length);
}

function solverCostInMisses(train: Train): number {
  const n = train.notes.length;
  const size = n + train.strokes.length;
  if (size === 0) return 0;
  const matrix = Array.from({ length: size }, (_, r) =>
    Array.from({ length: size }, (_, c) => {
      if (r < n && c < train.strokes.length)
        return pairInMisses(train.notes[r]!, train.strokes[c]!);
      return r < n || c < train.strokes.length ? 1 : 0;
    }),
  );
  const { rowAssignments } = linearSumAssignment(matrix, { maximaze: false });
  let total = 0;
  rowAssignments.forEach((c, r) => (total += matrix[r]![c]!));
  return total;
}

/** The stated order of two matchings, written down directly: cost, right voices, pairs, squares, notes, strokes. */
function rank(train: Train, strokeOfNote: readonly number[]): number[] {
  let right = 0;
  let pairs = 0;
  let squares = 0;
  let notes = 0;
  let strokes = 0;
  strokeOfNote.forEach((j, i) => {
    if (j < 0) return;
    const note = train.notes[i]!;
    const stroke = train.strokes[j]!;
    const offset = stroke.timeUs - note.timeUs;
    pairs++;
    if (note.voice === stroke.voice) right++;
    squares += offset * offset;
    notes += i;
    strokes += 4096 * stroke.timeUs + 128 * stroke.voice + 127 - stroke.velocity;
  });
  return [totalCost(train, strokeOfNote), -right, -pairs, squares, notes, strokes];
}

/** Every one-to-one matching there is, best first by rank. */
function exhaustive(train: Train): number[][] {
  const best: number[][] = [];
  let bestRank: number[] | undefined;
  const chosen: number[] = [];
  const used = new Set<number>();
  const visit = (i: number) => {
    if (i === train.notes.length) {
      const r = rank(train, chosen);
      const order = bestRank ? compare(r, bestRank) : -1;
      if (order < 0) {
        bestRank = r;
        best.length = 0;
      }
      if (order <= 0) best.push([...chosen]);
      return;
    }
    chosen[i] = -1;
    visit(i + 1);
    train.strokes.forEach((stroke, j) => {
      const note = train.notes[i]!;
      if (used.has(j) || pairCost(note, stroke) > 2 * note.reachUs) return;
      used.add(j);
      chosen[i] = j;
      visit(i + 1);
      used.delete(j);
    });
    chosen[i] = -1;
  };
  visit(0);
  return best;
}

const compare = (a: readonly number[], b: readonly number[]) => {
  for (let k = 0; k < a.length; k++) if (a[k] !== b[k]) return a[k]! - b[k]!;
  return 0;
};

describe('the whole-take matcher', () => {
  it('lawLeastCost: costs what a general assignment solver finds, in sloppy and dense playing', () => {
    fc.assert(
      fc.property(playedTrain, (train) => {
        expect(totalCost(train, match(train).strokeOfNote)).toBe(solverCost(train));
      }),
      { numRuns: runCount(1000, 15) },
    );
  });

  it('lawLeastCostOfEach: with reaches that change, each pair is weighed by its own note, to a rounding', () => {
    fc.assert(
      fc.property(changingTrain, (train) => {
        const { notes, strokes } = columns(train);
        const found = costInMisses(train, matchColumns(notes, strokes).strokeOfNote);
        expect(found).toBeCloseTo(solverCostInMisses(train), 4);
      }),
      { numRuns: runCount(500) },
    );
  });

  it('lawStatedOrder: of all matchings there are, takes the one the stated order puts first', () => {
    fc.assert(
      fc.property(tiedTrain, (train) => {
        expect(exhaustive(train)).toContainEqual(Array.from(match(train).strokeOfNote));
      }),
      { numRuns: runCount(1000, 15) },
    );
  });

  it.each([
    ['both strokes late for both notes', [0, 30], [30, 70], [0, 1]],
    ['both strokes early for both notes', [0, 30], [-40, 0], [0, 1]],
    ['three strokes late for three notes', [0, 10, 20], [20, 30, 40], [0, 1, 2]],
    ['a stroke half-way between two notes goes to the earlier', [0, 30], [15], [0, -1]],
    ['of two strokes as near the earlier answers', [30], [15, 45], [0]],
    ['one at the very edge answers, rather than a miss and an extra stroke', [0], [100], [0]],
  ])(
    'of matchings that cost the same takes the nearest pairs, in order: %s',
    (_, notes, strokes, answers) => {
      const train: Train = {
        notes: notes.map((timeUs) => ({ timeUs, voice: 5, reachUs: 100 })),
        strokes: strokes.map((timeUs) => ({ timeUs, voice: 5, velocity: 80 })),
      };
      expect(Array.from(match(train).strokeOfNote)).toEqual(answers);
    },
  );

  it('keeps grace and main note in order where a note long before has another reach', () => {
    const train: Train = {
      notes: [
        { timeUs: 10_894_039, voice: 5, reachUs: 98_144 },
        { timeUs: 20_932_184, voice: 5, reachUs: 100_000 },
        { timeUs: 20_962_184, voice: 5, reachUs: 100_000 },
      ],
      strokes: [
        { timeUs: 20_928_379, voice: 5, velocity: 20 },
        { timeUs: 20_929_924, voice: 5, velocity: 33 },
      ],
    };
    expect(Array.from(match(train).strokeOfNote)).toEqual([-1, 0, 1]);
  });

  it.each([1, 98_144, 500_000])(
    'gives a note its own late stroke where a note long before has a reach of %i',
    (reachUs) => {
      const train: Train = {
        notes: [
          { timeUs: -10_000_000, voice: 5, reachUs },
          { timeUs: 0, voice: 0, reachUs: 100_000 },
          { timeUs: 100_002, voice: 0, reachUs: 100_000 },
        ],
        strokes: [
          { timeUs: 0, voice: 0, velocity: 20 },
          { timeUs: 50_001, voice: 0, velocity: 57 },
          { timeUs: 100_002, voice: 1, velocity: 94 },
        ],
      };
      expect(Array.from(match(train).strokeOfNote)).toEqual([-1, 0, 2]);
    },
  );

  it('lawReachElsewhere: a note of another reach far before leaves all other matchings as they are', () => {
    fc.assert(
      fc.property(playedTrain, fc.integer({ min: 1, max: 500_000 }), (train, reachUs) => {
        const first = { timeUs: -10_000_000, voice: 5, reachUs };
        const answers = match({ ...train, notes: [first, ...train.notes] }).strokeOfNote;
        expect(Array.from(answers.subarray(1))).toEqual(Array.from(match(train).strokeOfNote));
      }),
      { numRuns: runCount(1000) },
    );
  });

  it('lawInOrder: notes and strokes of one voice and one reach never cross', () => {
    fc.assert(
      fc.property(fc.oneof(playedTrain, tiedTrain), (any) => {
        const train: Train = {
          notes: any.notes.map((note) => ({ ...note, voice: 5 })),
          strokes: any.strokes.map((stroke) => ({ ...stroke, voice: 5 })),
        };
        const answers = Array.from(match(train).strokeOfNote).filter((j) => j >= 0);
        const times = answers.map((j) => train.strokes[j]!.timeUs);
        expect(times).toEqual([...times].sort((a, b) => a - b));
      }),
    );
  });

  it('lawSafePairs: pairs fixed in the sweep are those the assignment of everything makes', () => {
    fc.assert(
      fc.property(fc.oneof(playedTrain, tiedTrain), (train) => {
        const { notes, strokes } = columns(train);
        expect(match(train)).toEqual(assign(notes, strokes));
      }),
      { numRuns: runCount(1000, 15) },
    );
  });

  it('takes strokes in any order and answers with their own places', () => {
    const notes = [due(0), due(250), due(500)];
    const strokes = [
      extra(510, 'snare'),
      extra(900, 'snare'),
      extra(10, 'snare'),
      extra(5, 'ride'),
    ];
    const { strokeOfNote, noteOfStroke } = matchTake(notes, strokes);
    expect([...strokeOfNote]).toEqual([2, -1, 0]);
    expect([...noteOfStroke]).toEqual([2, -1, 0, -1]);
  });

  // 70 early and 60 early cost 140 + 120, 30 late beside a miss and an extra stroke 60 + 100 + 100: as much, so that
  // more pairs decide. Whoever took the strokes as they come would have settled the stroke at 80 first.
  it.each([
    ['in time order', [-20, 80], [0, 1]],
    ['the later first', [80, -20], [1, 0]],
  ])('answers the same whatever the order of the strokes: %s', (_, strokesMs, answers) => {
    const strokes = strokesMs.map((atMs) => extra(atMs, 'snare'));
    const { strokeOfNote, noteOfStroke } = matchTake([due(50), due(140)], strokes);
    expect([...strokeOfNote]).toEqual(answers);
    expect([...noteOfStroke]).toEqual(answers);
  });

  it.each([
    ['first', [91, 90], 0],
    ['last', [90, 91], 1],
    ['first, as they are as loud,', [90, 90], 0],
  ])('of two strokes at once on one voice the louder answers: the %s', (_, velocities, answer) => {
    const strokes = velocities.map((velocity) => ({ ...extra(10, 'snare'), velocity }));
    const { strokeOfNote, noteOfStroke } = matchTake([due(0)], strokes);
    expect([...strokeOfNote]).toEqual([answer]);
    expect([...noteOfStroke]).toEqual(answer === 0 ? [0, -1] : [-1, 0]);
  });

  it.each([
    ['all', 500_001],
    ['some', 100],
  ])('refuses a reach of more than half a second, when %s notes have it', (_, other) => {
    const train = (reachUs: number, otherUs: number): Train => ({
      notes: [reachUs, otherUs].map((reach) => ({ timeUs: 0, voice: 5, reachUs: reach })),
      strokes: [{ timeUs: 0, voice: 5, velocity: 80 }],
    });
    expect(() => match(train(500_001, other))).toThrow(RangeError);
    expect(() => match(train(other, 500_001))).toThrow(RangeError);
    expect(() => match(train(500_000, Math.min(other, 500_000)))).not.toThrow();
  });

  it.each([
    ['no stroke is left for it', [], [500_001], [500_000]],
    ['nobody disputes its stroke', [7], [500_001], [500_000]],
    ['no stroke is left for it', [], [0], [1]],
    ['another is wider', [7], [0, 100], [1, 100]],
  ])('looks at the reach also where %s', (_, strokesUs, refused, taken) => {
    const train = (reaches: readonly number[]): Train => ({
      notes: reaches.map((reachUs) => ({ timeUs: 0, voice: 5, reachUs })),
      strokes: strokesUs.map((timeUs) => ({ timeUs, voice: 5, velocity: 80 })),
    });
    expect(() => match(train(refused))).toThrow(RangeError);
    expect(() => match(train(taken))).not.toThrow();
  });

  it('lawOneToOne: no stroke and no note is used twice, and both sides agree', () => {
    fc.assert(
      fc.property(playedTrain, (train) => {
        const { strokeOfNote, noteOfStroke } = match(train);
        strokeOfNote.forEach((j, i) => j >= 0 && expect(noteOfStroke[j]).toBe(i));
        noteOfStroke.forEach((i, j) => i >= 0 && expect(strokeOfNote[i]).toBe(j));
      }),
    );
  });
});
