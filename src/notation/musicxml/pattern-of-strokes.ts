import type { PatternNote, TargetPattern } from '../../phrase/decompose/target-pattern';
import { remainder } from '../../time/whole';
import type { StrokeAtPartial } from './pattern-of-bars';

/** How long what is written is. */
interface Extent {
  readonly partials: number;
  readonly barPartials: number;
}

/** Partials of the cycle, and from bar 1 beat 1 to the first one. */
interface CycleHint {
  readonly cycle?: number;
  readonly firstCycleAt?: number;
}

/**
 * Strokes as a pattern that comes round: after all that is written, or, where its first cycle starts elsewhere than on bar
 * 1 beat 1, after as many cycles as it takes to be the same again. With the cycle, where that is an even part of it.
 */
export function patternOfStrokes(
  strokes: readonly StrokeAtPartial[],
  head: Omit<TargetPattern, 'cyclePartials' | 'notes' | 'pickup' | 'displace'>,
  { partials, barPartials }: Extent,
  { cycle, firstCycleAt = 0 }: CycleHint,
): { readonly pattern: TargetPattern; readonly cycle: number | undefined } {
  const sounding = strokes.filter(({ partial }) => partial >= 0);
  const pickup = strokes
    .filter(({ partial }) => partial < 0 && partial >= -barPartials)
    .map(({ partial, graces, ...stroke }) => ({
      partialsBefore: -partial,
      ...stroke,
      ...(graces.length > 0 && { graces }),
    }));
  const displaced =
    cycle !== undefined && firstCycleAt !== 0
      ? displacedPattern(sounding, partials, cycle, firstCycleAt)
      : undefined;
  if (displaced)
    return { pattern: { ...head, ...displaced, displace: firstCycleAt, pickup }, cycle };
  return {
    pattern: { ...head, cyclePartials: partials, notes: sounding, pickup },
    cycle: cycle !== undefined && partials % cycle === 0 ? cycle : undefined,
  };
}

/** The notes of a pattern that begins elsewhere than on bar 1 beat 1; undefined where they do not come round in what is written. */
function displacedPattern(
  strokes: readonly StrokeAtPartial[],
  partials: number,
  cycle: number,
  displace: number,
): { readonly cyclePartials: number; readonly notes: readonly PatternNote[] } | undefined {
  const from = Math.max(0, displace);
  if (strokes.some(({ partial }) => partial < from)) return undefined;
  const at = new Map<number, string[]>();
  for (const { partial, ...stroke } of strokes)
    at.set(partial, [...(at.get(partial) ?? []), JSON.stringify(stroke)].sort());
  const textAt = (partial: number) => (at.get(partial) ?? []).join(' ');
  for (let period = cycle; from + period <= partials; period += cycle) {
    let isSame = true;
    for (let i = from; isSame && i + period < partials; i++)
      isSame = textAt(i) === textAt(i + period);
    if (!isSame) continue;
    const notes = strokes
      .filter(({ partial }) => partial < from + period)
      .map((stroke) => ({ ...stroke, partial: remainder(stroke.partial - displace, period) }))
      .sort((a, b) => a.partial - b.partial);
    return { cyclePartials: period, notes };
  }
  return undefined;
}
