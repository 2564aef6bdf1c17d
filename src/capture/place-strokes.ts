import { median } from 'simple-statistics';
import { VOICES, voiceNumber } from '../phrase/model/voice';
import type { StrokeInBeats } from './played-stroke';
import type { BeatGrid } from './subdivision';

/** Which partial each stroke belongs to (from bar 1 beat 1, 0-based) and how far from it, in beats. */
export interface OnGrid {
  readonly partials: Int32Array;
  readonly offsets: Float64Array;
}

/** The nearest partial of every stroke, after what all strokes are late or early together is taken off. */
export function placeOnGrid(strokeBeats: readonly number[], grid: BeatGrid): OnGrid {
  let bias = 0;
  let placed = nearest(strokeBeats, grid, bias);
  for (let round = 0; round < 2; round++) {
    bias += median([...placed.offsets]);
    placed = nearest(strokeBeats, grid, bias);
  }
  return placed;
}

function nearest(
  strokeBeats: readonly number[],
  { subdivision, places }: BeatGrid,
  bias: number,
): OnGrid {
  const partials = new Int32Array(strokeBeats.length);
  const offsets = new Float64Array(strokeBeats.length);
  strokeBeats.forEach((played, i) => {
    const beat = played - bias;
    const whole = Math.floor(beat);
    let best = Infinity;
    for (let k = 0; k <= subdivision; k++) {
      const place = whole + (k === subdivision ? 1 : places[k]!);
      if (Math.abs(beat - place) < Math.abs(best)) {
        best = beat - place;
        partials[i] = whole * subdivision + k;
      }
    }
    offsets[i] = best;
  });
  return { partials, offsets };
}

/**
 * Indices of strokes with one a voice and partial, the loudest, out of those that `counts`
 * lets pass. Times do not come into it: the strokes keep their order.
 */
export function onePerPlace(
  strokes: readonly StrokeInBeats[],
  { partials }: OnGrid,
  counts: (i: number) => boolean,
): number[] {
  const loudestAt = new Map<number, number>();
  strokes.forEach(({ voice, velocity }, i) => {
    if (!counts(i)) return;
    const key = partials[i]! * VOICES.length + voiceNumber(voice);
    const known = loudestAt.get(key);
    if (known === undefined || velocity > strokes[known]!.velocity) loudestAt.set(key, i);
  });
  return [...loudestAt.values()].sort((a, b) => a - b);
}
