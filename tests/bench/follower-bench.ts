import { deepStrictEqual } from 'node:assert/strict';
import { sum } from 'simple-statistics';
import { Follower } from '../../src/match/follower';
import { matchColumns } from '../../src/match/match-take';
import { duration, p50, p99, times, type BenchRow } from './bench-row';
import { mergeMs } from './plain-merge';
import { inWords, playedColumns, type PlayedColumns, type Playing } from './played-columns';

const RUNS = 9;
export const STROKE_AIM_MS = 0.05;
export const STROKE_AIM = `p99 < ${duration(STROKE_AIM_MS)}`;

function targetOf({ notes, reachUs }: PlayedColumns): Follower {
  const count = notes.timeUs.length;
  const follower = new Follower(reachUs, count, count);
  for (let i = 0; i < count; i++)
    follower.addNote(notes.timeUs[i]!, notes.voice[i]!, reachUs, Math.floor(reachUs / 3));
  return follower;
}

/** Plays all strokes; what each took, ms, when `took` is given. */
function play({ strokes }: PlayedColumns, follower: Follower, took?: Float64Array): void {
  for (let j = 0; j < strokes.timeUs.length; j++) {
    const timeUs = strokes.timeUs[j]!;
    const from = performance.now();
    follower.add(timeUs, strokes.voice[j]!, strokes.velocity[j]!);
    follower.advance(timeUs);
    if (took) took[j] = performance.now() - from;
  }
}

/** The live answer is the whole-take matcher's. */
export function checkFollower(playing: Playing, count: number): PlayedColumns {
  const played = playedColumns(playing, count);
  const follower = targetOf(played);
  play(played, follower);
  const { strokeOfNote, noteOfStroke } = matchColumns(played.notes, played.strokes);
  deepStrictEqual(follower.assignment.strokeOfNote.subarray(0, count), strokeOfNote);
  deepStrictEqual(follower.assignment.noteOfStroke.subarray(0, count), noteOfStroke);
  return played;
}

/** The live follower, stroke by stroke: the median run's p50 and p99. */
export function followerRow(playing: Playing, count: number): BenchRow {
  const played = checkFollower(playing, count);
  const runs = Array.from({ length: RUNS }, () => {
    const took = new Float64Array(count);
    play(played, targetOf(played), took);
    return took;
  });
  const slow = p50(runs.map(p99));
  return {
    name: `follower, ${inWords(playing)}`,
    asserted: 'same matching as the whole take',
    p50: duration(p50(runs.map(p50))),
    tail: `p99 ${duration(slow)}`,
    ratio: times(p50(runs.map((took) => sum(Array.from(took)))) / mergeMs(played)),
    aim: STROKE_AIM,
    met: slow < STROKE_AIM_MS,
    note: `Per stroke (add and advance), ${count} notes due; the clock (performance.now, in nanoseconds here) is read round every stroke; the ratio is the sum of all strokes to a plain merge.`,
  };
}
