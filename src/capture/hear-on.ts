import { voiceNumber } from '../phrase/model/voice';
import { findCycle, type CycleFit, type GridStroke } from './cycle-length';
import { graceMarks } from './grace-marks';
import { onePerPlace, placeOnGrid, type OnGrid } from './place-strokes';
import type { StrokeInBeats } from './played-stroke';
import type { BeatGrid } from './subdivision';

/** A take heard on one grid: where every stroke lies on it, and after how long they repeat. */
export interface Hearing {
  readonly grid: BeatGrid;
  readonly partialUs: number;
  /** See graceMarks. */
  readonly marks: Int32Array;
  readonly onGrid: OnGrid;
  /** Indices of the main strokes, one a voice and partial, and where they are. */
  readonly main: readonly number[];
  readonly onTheGrid: readonly GridStroke[];
  /** Undefined where nothing was played twice. */
  readonly cycle: CycleFit | undefined;
}

/** What is heard of strokes on a grid, given how long a beat is, µs. */
export function hearOn(strokes: readonly StrokeInBeats[], beatUs: number, grid: BeatGrid): Hearing {
  const partialUs = beatUs / grid.subdivision;
  const marks = graceMarks(strokes, partialUs);
  const onGrid = placeOnGrid(
    strokes.map(({ beat }) => beat),
    grid,
  );
  const { partials } = onGrid;
  const main = onePerPlace(strokes, onGrid, (i) => partials[i]! >= 0 && marks[i]! < 0);
  const onTheGrid = main.map((i): GridStroke => {
    const { voice, velocity } = strokes[i]!;
    return { partial: partials[i]!, voice: voiceNumber(voice), velocity };
  });
  return { grid, partialUs, marks, onGrid, main, onTheGrid, cycle: findCycle(onTheGrid) };
}
