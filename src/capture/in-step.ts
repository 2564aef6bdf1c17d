import type { BestHearing } from './hearing';
import type { PlayedStroke } from './played-stroke';
import { FREE_TEMPO_RARENESS } from './pulse/beat-of-pulse';
import { findPulse } from './pulse/pulse';

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

/**
 * Rayleigh's statistic, n times the squared mean phase vector, from which strokes are in step with a grid: without
 * any grid it passes z by chance with probability exp(-z) (Mardia & Jupp, Directional Statistics, 2000, 6.3). Chosen: among some
 * twenty grids that is once in 150. Clicks that are 3 to 10 % off stay below 5, those that were kept to are above 13.
 */
const IN_STEP_FROM = 8;
/** A pulse that is less clear than this offers no tempo. Chosen, not measured. */
const CLEAR_PULSE = 0.6;
/** A tempo is offered where it is no farther from the click than this, as a share. Chosen, not measured. */
const FARTHEST = 0.25;
/** How much farther from the click a tempo may be for each nat that it is more usual, as a share. Chosen, not measured. */
const FOR_USUAL = 0.05;

/**
 * Whether strokes fell where a grid has its partials, and not only nearer to them than to those of other grids: a
 * grid fine enough is near to any stroke.
 */
export function fitsGrid({ grid, onGrid, marks }: BestHearing): boolean {
  const { subdivision, swing } = grid;
  // The places of a swung pair are those of an even grid that divides it as finely as long and short do.
  const parts = swing ? (subdivision / 2) * Number(swing.n + swing.d) : subdivision;
  let [x, y, count] = [0, 0, 0];
  onGrid.offsets.forEach((offset, i) => {
    if (marks[i]! >= 0) return;
    const angle = 2 * Math.PI * parts * offset;
    x += Math.cos(angle);
    y += Math.sin(angle);
    count++;
  });
  return x * x + y * y >= IN_STEP_FROM * count;
}

/**
 * The tempo near a click, in beats a minute, that strokes in time order are in step with: their own pulse, so many to
 * the beat. Undefined where there is no clear one.
 */
export function inStepTempo(strokes: readonly PlayedStroke[], clickBpm: number) {
  const pulse = findPulse(strokes);
  if (!pulse || pulse.confidence < CLEAR_PULSE) return undefined;
  let best: { readonly bpm: number; readonly cost: number } | undefined;
  for (const [pulses, rareness] of FREE_TEMPO_RARENESS) {
    const bpm = 60e6 / (pulse.periodUs * pulses);
    const off = Math.abs(Math.log(bpm / clickBpm));
    const cost = off / FOR_USUAL + rareness;
    if (off <= FARTHEST && (!best || cost < best.cost)) best = { bpm, cost };
  }
  return best && Math.round(best.bpm * 10) / 10;
}
