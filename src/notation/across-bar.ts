import type { CycleNote } from '../phrase/layers/cycle-pattern';
import { partialOnsets } from '../phrase/layers/expand';
import { layerStack } from '../phrase/layers/layer-stack';
import { isHand } from '../phrase/model/limb';
import type { Phrase } from '../phrase/model/phrase';
import { syllable } from '../phrase/model/syllable';
import { lcm, remainder } from '../time/whole';
import { mainNotes } from './main-notes';

/** One stroke of a partial. */
export interface AcrossStroke {
  /** Grace notes small, ahead of their limb: "lR". */
  readonly sticking: string;
  readonly level: CycleNote['level'];
  readonly isHand: boolean;
}

/** One partial, counted both ways. */
export interface AcrossPartial {
  /** From bar 1 beat 1, from 0. */
  readonly partial: number;
  /** Counted in the meter. */
  readonly count: string;
  readonly onBeat: boolean;
  /** 1-based; below 1 before the phrase begins. */
  readonly cycle: number;
  /** Counted in the cycle, 1-based. */
  readonly position: number;
  readonly strokes: readonly AcrossStroke[];
}

/** A layer laid across the bars, up to where cycle start and bar line meet again. */
export interface Across {
  readonly barPartials: number;
  /** Partials to a beat. */
  readonly subdivision: number;
  /** Bars until then, the one in which it happens included. */
  readonly bars: number;
  /** Partials from realignment to realignment. */
  readonly period: number;
  /** Where the first cycle starts, partials from bar 1 beat 1. */
  readonly start: number;
  /** Bars ahead of bar 1 that the pickup reaches into. */
  readonly lead: number;
  /** So many partials from one on: from 0, below it before bar 1, where only the pickup sounds. */
  partials(from: number, count: number): readonly AcrossPartial[];
  /**
   * The partial that sounds so many beats after bar 1 beat 1, swung where the layer is; from the first realignment on
   * the one that it comes round to.
   */
  partialAt(beat: number): number;
}

/** Beats read off a clock are a little less than exact. */
const ROUNDING = 1e-6;

/**
 * Lays a layer (1-based) across the bars, as it is written: before any swing but for `partialAt`.
 *
 * @throws RangeError when the phrase has no such layer.
 */
export function acrossBar(phrase: Phrase, layer: number): Across {
  const laid = layerStack(phrase, layer);
  const { subdivision, barPartials, displace } = laid.grid;
  const period = lcm(phrase.cycle, barPartials);
  const pickup = byPartial(laid.pattern(0));
  const known = new Map<readonly CycleNote[], readonly (readonly AcrossStroke[])[]>();
  const strokesOf = (cycle: number, position: number): readonly AcrossStroke[] => {
    if (cycle < 1) return [];
    const notes = laid.pattern(cycle);
    let strokes = known.get(notes);
    if (!strokes) known.set(notes, (strokes = byPosition(notes, phrase.cycle)));
    return strokes[position - 1]!;
  };
  const onsetOf = partialOnsets(phrase, layer);
  const inBeat = Array.from({ length: subdivision }, (_, partial) => onsetOf(partial).valueOf());
  return {
    barPartials,
    subdivision,
    bars: Math.max(1, Math.ceil((displace + period) / barPartials)),
    period,
    start: displace,
    partialAt(beat) {
      const late = beat + ROUNDING;
      const whole = Math.floor(late);
      const partial = whole * subdivision + inBeat.findLastIndex((onset) => onset <= late - whole);
      // What was displaced ahead of bar 1 is not come round to.
      const first = Math.max(0, displace);
      return partial < first + period ? partial : first + remainder(partial - first, period);
    },
    lead: Math.ceil(Math.max(0, ...[...pickup.keys()].map((partial) => -partial)) / barPartials),
    partials: (from, count) =>
      Array.from({ length: count }, (_, i) => {
        const partial = from + i;
        const inTime = Math.floor((partial - displace) / phrase.cycle) + 1;
        // What was displaced ahead of bar 1 is not played there.
        const cycle = partial < 0 ? 0 : inTime;
        const position = remainder(partial - displace, phrase.cycle) + 1;
        return {
          partial,
          count: syllable(phrase.meter, subdivision, partial),
          onBeat: partial % subdivision === 0,
          cycle,
          position,
          strokes: partial < 0 ? (pickup.get(partial) ?? []) : strokesOf(cycle, position),
        };
      }),
  };
}

function byPosition(
  notes: readonly CycleNote[],
  cycle: number,
): readonly (readonly AcrossStroke[])[] {
  const strokes = byPartial(notes);
  return Array.from({ length: cycle }, (_, partial) => strokes.get(partial) ?? []);
}

/** The strokes of a cycle, or of the pickup, by their partials. */
function byPartial(notes: readonly CycleNote[]): ReadonlyMap<number, readonly AcrossStroke[]> {
  const strokes = new Map<number, AcrossStroke[]>();
  for (const { main, sticking } of mainNotes(notes)) {
    const { partial, level, limb } = main;
    const here = strokes.get(partial);
    const stroke = { sticking, level, isHand: isHand(limb) };
    if (here) here.push(stroke);
    else strokes.set(partial, [stroke]);
  }
  return strokes;
}
