import { beats, type Beats } from '../../time/beats';
import { gcd, remainder } from '../../time/whole';
import { gridAt } from '../model/grid';
import type { Phrase } from '../model/phrase';

export interface CycleStart {
  /** 1-based. */
  readonly cycle: number;
  /** 1-based; 0 or less when displaced ahead of bar 1. */
  readonly bar: number;
  /** 1-based exact beat in the bar, as written. */
  readonly beat: Beats;
}

/** How a cycle comes round against the bar. */
export interface Realignment {
  /** Cycles until a cycle starts again where the first one did in its bar. */
  readonly cycles: number;
  /** Bars that takes. */
  readonly bars: number;
  /** Where each of those cycles starts. */
  readonly starts: readonly CycleStart[];
}

/**
 * Where a layer's (1-based) cycle and the bar line coincide again: their least common multiple.
 *
 * @throws RangeError when the phrase has no such layer.
 * @example realignment(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, 1).bars // => 3
 */
export function realignment(phrase: Phrase, layer: number): Realignment {
  const { subdivision, barPartials, displace } = gridAt(phrase, layer);
  const cycles = cyclesToRealign(phrase, barPartials);
  const starts = Array.from({ length: cycles }, (_, i) => {
    const partial = i * phrase.cycle + displace;
    return {
      cycle: i + 1,
      bar: Math.floor(partial / barPartials) + 1,
      beat: beats(remainder(partial, barPartials) + subdivision, subdivision),
    };
  });
  return { cycles, bars: (cycles * phrase.cycle) / barPartials, starts };
}

/** How many cycles that takes, where a bar has so many partials. */
export const cyclesToRealign = ({ cycle }: Phrase, barPartials: number): number =>
  barPartials / gcd(cycle, barPartials);
