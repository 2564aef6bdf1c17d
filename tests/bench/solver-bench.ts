import { equal } from 'node:assert/strict';
import { linearSumAssignment } from 'linear-sum-assignment';
import { matchColumns } from '../../src/match/match-take';
import { pairCost, totalCost, type Train } from '../match/arbitrary-train';
import { duration, p50, times, timed, type BenchRow } from './bench-row';
import { inWords, playedColumns, type PlayedColumns, type Playing } from './played-columns';

const RUNS = 3;

function trainOf({ notes, strokes }: PlayedColumns): Train {
  return {
    notes: Array.from(notes.timeUs, (timeUs, i) => ({
      timeUs,
      voice: notes.voice[i]!,
      reachUs: notes.reachUs[i]!,
    })),
    strokes: Array.from(strokes.timeUs, (timeUs, j) => ({
      timeUs,
      voice: strokes.voice[j]!,
      velocity: strokes.velocity[j]!,
    })),
  };
}

/**
 * What pairs save against leaving note and stroke alone, 0 where they do not: as many notes as
 * strokes, so a full assignment of least cost is the matching, pairs that save nothing taken as alone.
 */
const savings = ({ notes, strokes }: Train, reachUs: number): number[][] =>
  notes.map((note) => strokes.map((stroke) => Math.min(0, pairCost(note, stroke) - 2 * reachUs)));

/** A general solver finds the same least total cost. */
export function checkSolver(playing: Playing, count: number) {
  const played = playedColumns(playing, count);
  const train = trainOf(played);
  const { reachUs } = played;
  const matrix = savings(train, reachUs);
  const { rowAssignments } = linearSumAssignment(matrix, { maximaze: false });
  let cost = 2 * count * reachUs;
  rowAssignments.forEach((j, i) => (cost += matrix[i]![j]!));
  const { strokeOfNote } = matchColumns(played.notes, played.strokes);
  equal(totalCost(train, strokeOfNote, reachUs), cost);
  return { played, matrix };
}

/** The alternative on a take small enough for it; its matrix of costs is made beforehand and not counted. */
export function solverRow(playing: Playing, count: number): BenchRow {
  const { played, matrix } = checkSolver(playing, count);
  const took = timed(RUNS, () => linearSumAssignment(matrix, { maximaze: false }), 0);
  const ours = p50(timed(50, () => matchColumns(played.notes, played.strokes)));
  return {
    name: `general solver, ${inWords(playing)}`,
    asserted: 'same total cost as ours',
    p50: duration(p50(took)),
    tail: `slowest ${duration(Math.max(...took))}`,
    ratio: times(p50(took) / ours),
    note: `linear-sum-assignment on ${count} notes and as many strokes, without making its matrix; the ratio is to our matcher on the same take.`,
  };
}
