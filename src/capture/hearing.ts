import { givenCycle, type CycleLength } from './cycle-length';
import { hearOn, type Hearing } from './hear-on';
import type { StrokeInBeats } from './played-stroke';
import { judgeGrids } from './subdivision';

/** The hearing that was chosen. */
export interface BestHearing extends Omit<Hearing, 'cycle'> {
  /** Undefined where nothing was played twice. */
  readonly cycle: (CycleLength & { readonly isGiven: boolean }) | undefined;
  readonly confidence: number;
}

/** Grids that cost at most so much more than the best are heard out, and so many of them. */
const CLOSE = 15;
const HEARD_OUT = 3;
/** A grid on which nothing comes twice costs more than any on which something does. */
const NOTHING_TWICE = 1e6;

/**
 * The hearing with the shortest description, grid and cycle together: what two grids explain alike is
 * heard on the one on which the phrase comes round sooner. `confidence`, 0 to 1, is how much
 * likelier that is than the next. `cyclePartials` is the length of the cycle where the player says it: it changes
 * nothing but the cycle, since whoever says it counts the partials that were heard. `pulses` is how many of the pulse
 * found make a beat, where it was found.
 */
export function bestHearing(
  strokes: readonly StrokeInBeats[],
  beatUs: number,
  maySwing: boolean,
  {
    cyclePartials,
    pulses,
  }: { readonly cyclePartials?: number | undefined; readonly pulses?: number | undefined } = {},
): BestHearing {
  const judged = judgeGrids(strokes, beatUs, maySwing, pulses);
  const least = judged[0]!.cost;
  const heard = judged
    .filter(({ cost }, i) => i < HEARD_OUT && cost <= least + CLOSE)
    .map(({ grid, cost }) => {
      const hearing = hearOn(strokes, beatUs, grid);
      return { ...hearing, cost: cost + (hearing.cycle?.cost ?? NOTHING_TWICE) };
    })
    .sort((a, b) => a.cost - b.cost);
  const best = heard[0]!;
  const rival = heard[1]?.cost ?? best.cost + (judged[heard.length]?.cost ?? Infinity) - least;
  const lead = Math.min(30, rival - best.cost);
  const isGiven = cyclePartials !== undefined;
  const cycle = isGiven ? givenCycle(best.onTheGrid, cyclePartials) : best.cycle;
  return {
    ...best,
    cycle: cycle && { ...cycle, isGiven },
    confidence: 1 - 1 / (1 + Math.exp(lead)),
  };
}
