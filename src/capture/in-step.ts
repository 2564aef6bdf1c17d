import type { PlayedStroke } from './played-stroke';

/** Ways to divide the beat in which strokes may be in step; finer ones are in step with nearly anything. */
const SUBDIVISIONS = [1, 2, 3, 4];
/**
 * Squared phase coherence from which strokes are in step. Chosen: a spread of a sixth of a partial, which is
 * untidy playing, gives 0.33, and twenty strokes at another tempo reach that once in a thousand times.
 */
const IN_STEP = 0.33;
const LEAST_STROKES = 8;

/**
 * Whether strokes keep to a tempo from first to last: the squared length of their mean phase vector in one
 * way to divide the beat, chance taken off (Bartlett, J. R. Stat. Soc. B 25, 1963).
 *
 * @example inStepWith(Array.from({ length: 12 }, (_, i) => ({ timeUs: i * 250000, voice: 'snare', velocity: 80 })), 120) // => true
 */
export function inStepWith(strokes: readonly PlayedStroke[], bpm: number): boolean {
  const n = strokes.length;
  if (n < LEAST_STROKES) return false;
  return SUBDIVISIONS.some((subdivision) => {
    const turn = (2 * Math.PI * bpm * subdivision) / 60e6;
    let x = 0;
    let y = 0;
    for (const { timeUs } of strokes) {
      x += Math.cos(turn * timeUs);
      y += Math.sin(turn * timeUs);
    }
    return (x * x + y * y - n) / (n * (n - 1)) >= IN_STEP;
  });
}
