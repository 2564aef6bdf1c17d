import type { BestHearing } from './hearing';
import type { StrokeInBeats } from './played-stroke';

/** The tempo that strokes are in step with, where they are not in step with a click at `bpm`; undefined where they are. */
export function inStepTempo(
  _strokes: readonly StrokeInBeats[],
  _hearing: BestHearing,
  _bpm: number,
): number | undefined {
  return undefined;
}
