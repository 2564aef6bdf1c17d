import { deepStrictEqual } from 'node:assert/strict';
import { assign, matchColumns } from '../../src/match/match-take';
import { duration, p50, times, timed, type BenchRow } from './bench-row';
import { mergeMs } from './plain-merge';
import { inWords, playedColumns, type PlayedColumns, type Playing } from './played-columns';

const RUNS = 15;
const AIM = 10;

/** The matching is the one of the assignment without the sweep that finds the safe pairs first. */
export function checkWholeTake(playing: Playing, count: number): PlayedColumns {
  const played = playedColumns(playing, count);
  const { strokeOfNote } = matchColumns(played.notes, played.strokes);
  deepStrictEqual(strokeOfNote, assign(played.notes, played.strokes).strokeOfNote);
  return played;
}

/** A whole take at once, beside the merge. */
export function wholeTakeRow(playing: Playing, count: number): BenchRow {
  const played = checkWholeTake(playing, count);
  const took = timed(RUNS, () => matchColumns(played.notes, played.strokes));
  const ratio = p50(took) / mergeMs(played);
  return {
    name: `whole take, ${inWords(playing)}`,
    asserted: 'same matching as stroke by stroke',
    p50: duration(p50(took)),
    tail: `slowest ${duration(Math.max(...took))}`,
    ratio: times(ratio),
    aim: `ratio ≤ ${AIM}`,
    met: ratio <= AIM,
    note: `${count} notes and as many strokes at once, ${RUNS} runs after a warm-up. The floor is a plain two-pointer merge.`,
  };
}
