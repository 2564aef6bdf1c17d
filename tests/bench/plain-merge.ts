import type { Matching } from '../../src/match/matching';
import { duration, p50, timed, times, type BenchRow } from './bench-row';
import { inWords, playedColumns, type PlayedColumns, type Playing } from './played-columns';

/**
 * The floor: two pointers over the same arrays pair the next note with the next stroke wherever the
 * reach allows. It neither looks at voices nor weighs anything, so its answer is not the one asked for;
 * nothing that reads both arrays and writes both answers can do much less.
 */
export function plainMerge({ notes, strokes, reachUs }: PlayedColumns): Matching {
  const noteUs = notes.timeUs;
  const strokeUs = strokes.timeUs;
  const strokeOfNote = new Int32Array(noteUs.length).fill(-1);
  const noteOfStroke = new Int32Array(strokeUs.length).fill(-1);
  let i = 0;
  let j = 0;
  while (i < noteUs.length && j < strokeUs.length) {
    const offset = strokeUs[j]! - noteUs[i]!;
    if (offset < -reachUs) j++;
    else if (offset > reachUs) i++;
    else {
      strokeOfNote[i] = j;
      noteOfStroke[j++] = i++;
    }
  }
  return { strokeOfNote, noteOfStroke };
}

/** So quick that it takes many runs until it is compiled for good. */
const WARM_UP = 200;
const RUNS = 101;

/** How long the merge of these arrays takes, ms: the median of many runs. */
export const mergeMs = (played: PlayedColumns): number =>
  p50(timed(RUNS, () => plainMerge(played), WARM_UP));

/** The floor by itself; it has an answer, but not the one asked for, so nothing is asserted of it here. */
export function mergeRow(playing: Playing, count: number): BenchRow {
  const played = playedColumns(playing, count);
  const took = timed(RUNS, () => plainMerge(played), WARM_UP);
  return {
    name: `plain merge, ${inWords(playing)}`,
    asserted: '–',
    p50: duration(p50(took)),
    tail: `slowest ${duration(Math.max(...took))}`,
    ratio: times(1),
  };
}
