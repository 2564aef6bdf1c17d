import { comesAgain, soundLines } from '../../phrase/decompose/comes-again';
import type { PatternNote, TargetPattern } from '../../phrase/decompose/target-pattern';
import { MAX_CYCLE } from '../../phrase/model/phrase-file';
import { divisors, remainder } from '../../time/whole';
import type { MusicXmlHints } from './read-hints';

/** How long what is written is. */
interface Extent {
  readonly partials: number;
  readonly barPartials: number;
}

/** What is written as what comes round. */
export interface StrokesAsPattern {
  readonly pattern: TargetPattern;
  /** The phrase's, where the file names it. */
  readonly cycle: number | undefined;
  /** The file says that it takes longer to come round than is written. */
  readonly isCutShort: boolean;
}

/**
 * Strokes as a pattern that comes round: after as many partials as the file says, where that is so, else after all that is written,
 * or an even part of it where all is longer than a cycle may be.
 */
export function patternOfStrokes(
  strokes: readonly PatternNote[],
  head: Omit<TargetPattern, 'cyclePartials' | 'notes' | 'pickup' | 'displace'>,
  { partials, barPartials }: Extent,
  { cycle, period, firstCycleAt = 0 }: MusicXmlHints,
): StrokesAsPattern {
  const main = strokes.filter(({ partial }) => partial >= 0);
  const pickup = strokes
    .filter(({ partial }) => partial < 0 && partial >= -barPartials)
    .map(({ partial, graces, ...stroke }) => ({
      partialsBefore: -partial,
      ...stroke,
      ...(graces.length > 0 && { graces }),
    }));
  const from = Math.max(0, firstCycleAt);
  const lines = soundLines(main.map(({ partial, ...stroke }) => [partial, JSON.stringify(stroke)]));
  const isHeld =
    cycle !== undefined &&
    period !== undefined &&
    period % cycle === 0 &&
    from + period <= partials &&
    main.every(({ partial }) => partial >= from) &&
    comesAgain(lines, from, partials, period);
  if (isHeld) {
    const notes = cycleNotes(main, from + period, period, firstCycleAt);
    const displace = firstCycleAt === 0 ? {} : { displace: firstCycleAt };
    const pattern = { ...head, ...displace, cyclePartials: period, notes, pickup };
    return { pattern, cycle, isCutShort: false };
  }
  const comesRound =
    partials <= MAX_CYCLE
      ? partials
      : divisors(partials).find(
          (length) => length === partials || comesAgain(lines, 0, partials, length),
        )!;
  const notes = cycleNotes(main, comesRound, comesRound, 0);
  const isCutShort = period !== undefined && from + period > partials;
  const isWholeCycles = cycle !== undefined && comesRound % cycle === 0;
  return {
    pattern: { ...head, cyclePartials: comesRound, notes, pickup },
    // Longer than a cycle may be, it still can be several of those that the file names.
    cycle: isCutShort && isWholeCycles && comesRound > MAX_CYCLE ? cycle : undefined,
    isCutShort,
  };
}

/** The notes before a partial, each at its place in a period that begins so many partials from bar 1 beat 1. */
const cycleNotes = (
  strokes: readonly PatternNote[],
  to: number,
  period: number,
  start: number,
): readonly PatternNote[] =>
  strokes
    .filter(({ partial }) => partial < to)
    .map((stroke) => ({ ...stroke, partial: remainder(stroke.partial - start, period) }))
    .sort((a, b) => a.partial - b.partial);
