import { layPhrase, type PatternNote } from '../../phrase/cycle-pattern';
import { isHand } from '../../phrase/limb';
import type { Phrase } from '../../phrase/phrase';
import { syllable } from '../../phrase/syllable';
import { lcm, remainder } from '../../time/whole';

/** One stroke of a partial. */
export interface AcrossStroke {
  /** Grace notes small, ahead of their limb: "lR". */
  readonly sticking: string;
  readonly level: PatternNote['level'];
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
  /** So many partials from one (from 0) on. */
  partials(from: number, count: number): readonly AcrossPartial[];
}

/**
 * Lays a layer (1-based) across the bars, as it is written: before any swing. The pickup is left out.
 *
 * @throws RangeError when the phrase has no such layer.
 */
export function acrossBar(phrase: Phrase, layer: number): Across {
  const laid = layPhrase(phrase, layer);
  const { subdivision, barPartials, displace } = laid.grid;
  const period = lcm(phrase.cycle, barPartials);
  const known = new Map<readonly PatternNote[], readonly (readonly AcrossStroke[])[]>();
  const strokesOf = (cycle: number, position: number): readonly AcrossStroke[] => {
    if (cycle < 1) return [];
    const notes = laid.pattern(cycle);
    let strokes = known.get(notes);
    if (!strokes) known.set(notes, (strokes = byPosition(notes, phrase.cycle)));
    return strokes[position - 1]!;
  };
  return {
    barPartials,
    subdivision,
    bars: Math.max(1, Math.ceil((displace + period) / barPartials)),
    period,
    start: displace,
    partials: (from, count) =>
      Array.from({ length: count }, (_, i) => {
        const partial = from + i;
        const cycle = Math.floor((partial - displace) / phrase.cycle) + 1;
        const position = remainder(partial - displace, phrase.cycle) + 1;
        return {
          partial,
          count: syllable(phrase.meter, subdivision, partial),
          onBeat: partial % subdivision === 0,
          cycle,
          position,
          strokes: strokesOf(cycle, position),
        };
      }),
  };
}

function byPosition(
  notes: readonly PatternNote[],
  cycle: number,
): readonly (readonly AcrossStroke[])[] {
  const strokes: AcrossStroke[][] = Array.from({ length: cycle }, () => []);
  let graces: PatternNote[] = [];
  for (const note of notes) {
    if (note.graceStep > 0) {
      graces.push(note);
      continue;
    }
    const mine = graces.filter((g) => g.partial === note.partial && g.voice === note.voice);
    graces = graces.filter((g) => !mine.includes(g));
    strokes[note.partial]!.push({
      sticking: mine.map(({ limb }) => limb.toLowerCase()).join('') + note.limb,
      level: note.level,
      isHand: isHand(note.limb),
    });
  }
  return strokes;
}
