import type { MidiDivision, MidiTempo } from './midi-file';

/** In force until the first tempo event, as the standard says: 120 quarters a minute. */
export const USUAL_US_PER_QUARTER = 500_000;

/**
 * Time of a tick in integer microseconds from tick 0, as a function of the tick. Exact: the time is
 * added up in whole numbers of microseconds over the division and rounded once. Ticks must not be
 * negative; fractions of a tick are allowed.
 *
 * @example tickTimes({ kind: 'musical', ticksPerQuarter: 96 }, [])(48) // => 250000
 */
export function tickTimes(
  division: MidiDivision,
  tempos: readonly MidiTempo[],
): (tick: number) => number {
  if (division.kind === 'frames') {
    const { framesPerSecond, ticksPerFrame } = division;
    // 29 means 30 / 1.001 frames a second: a frame lasts 100100 / 3 microseconds
    return framesPerSecond === 29
      ? (tick) => Math.round((tick * 100_100) / (3 * ticksPerFrame))
      : (tick) => Math.round((tick * 1e6) / (framesPerSecond * ticksPerFrame));
  }
  const segments = [{ tick: 0, parts: 0, usPerQuarter: USUAL_US_PER_QUARTER }];
  for (const { tick, usPerQuarter } of tempos) {
    const before = segments.at(-1)!;
    const parts = before.parts + (tick - before.tick) * before.usPerQuarter;
    if (tick === before.tick) segments.pop();
    segments.push({ tick, parts, usPerQuarter });
  }
  return (tick) => {
    let low = 0;
    let high = segments.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (segments[middle]!.tick <= tick) low = middle;
      else high = middle - 1;
    }
    const { tick: start, parts, usPerQuarter } = segments[low]!;
    return Math.round((parts + (tick - start) * usPerQuarter) / division.ticksPerQuarter);
  };
}
