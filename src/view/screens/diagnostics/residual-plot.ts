import type { ClockResidual } from '../../../clock/residual-ring';
import { figureText } from '../../figures/format';

export interface ResidualPlot {
  /** One short upright tick a pair, as an SVG path in the box of `PLOT`. */
  readonly path: string;
  /** Ends of the scale, ms above and below zero. */
  readonly scaleMs: number;
  readonly seconds: number;
  /** The same in words. */
  readonly words: string;
}

export const PLOT = { width: 600, height: 120 } as const;
const TICK = 3;
/** Ends the scale can have, ms. */
const SCALES = [0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000];

/** How far each pair of clock readings was from the map; undefined without any. */
export function residualPlot(residuals: readonly ClockResidual[]): ResidualPlot | undefined {
  const first = residuals[0];
  const last = residuals.at(-1);
  if (!first || !last) return undefined;
  const sizes = residuals.map(({ residualMs }) => Math.abs(residualMs)).sort((a, b) => a - b);
  const farthest = sizes.at(-1)!;
  const scaleMs = SCALES.find((end) => end >= farthest) ?? farthest;
  const spanMs = Math.max(1, last.performanceMs - first.performanceMs);
  const path = residuals
    .map(({ performanceMs, residualMs }) => {
      const x = ((performanceMs - first.performanceMs) / spanMs) * PLOT.width;
      const y = (0.5 - residualMs / scaleMs / 2) * (PLOT.height - 2 * TICK);
      return `M${x.toFixed(1)} ${y.toFixed(1)}v${2 * TICK}`;
    })
    .join('');
  const seconds = Math.round(spanMs / 1000);
  const half = sizes[Math.ceil(sizes.length / 2) - 1];
  const words = `${residuals.length} pairs of readings in ${seconds} s: half of them within ${figureText(half, 2)} ms of the map, the farthest ${figureText(farthest, 2)} ms off.`;
  return { path, scaleMs, seconds, words };
}
