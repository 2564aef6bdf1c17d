import type { JudgedNote } from '../score/judged-note';
import { robustSpread } from '../score/spread';
import { Z_95 } from '../score/wilson';
import { ERRORS, MIN_TIMED, offsetsMs, type Evidence } from './evidence';
import { finding, type Finding } from './finding';

/** A limb is told as uneven when it spreads this many times the rest. Chosen, not measured. */
const TIMES_THE_REST = 1.5;
/** Standard error of the scaled MAD of a normal sample, in spreads over √n: √1.361, asymptotically. */
const MAD_ERROR = 1.167;

/**
 * Spread by the robust figure, so that one wild stroke is not told as unevenness: first the limb that
 * spreads clearly more than the rest, else the whole when its 95 % range is wider than the tolerance.
 */
export function unevenness({ judgement, score, toleranceMs }: Evidence): Finding[] {
  const found: { finding: Finding; ratio: number }[] = [];
  for (const [limb, { count }] of score.byLimb) {
    const own = spreadOf(judgement.notes.filter(({ due }) => due.note.limb === limb));
    const rest = spreadOf(judgement.notes.filter(({ due }) => due.note.limb !== limb));
    if (!own || !rest || own.ms < TIMES_THE_REST * rest.ms) continue;
    if (own.ms - rest.ms <= ERRORS * Math.hypot(own.errorMs, rest.errorMs)) continue;
    // Spread that the tolerance swallows costs nothing and is not told.
    if (Z_95 * own.ms <= toleranceMs) continue;
    const weight = outside(own.ms, toleranceMs) * (count / score.overall.count);
    found.push({
      finding: finding('limb uneven', weight, { limb, ms: own.ms, restMs: rest.ms }),
      ratio: own.ms / rest.ms,
    });
  }
  if (found.length > 0) return [found.sort((a, b) => b.ratio - a.ratio)[0]!.finding];
  const all = spreadOf(judgement.notes);
  return all && Z_95 * all.ms > toleranceMs
    ? [
        finding('wide spread', outside(all.ms, toleranceMs), {
          ms: all.ms,
          aimMs: toleranceMs / Z_95,
        }),
      ]
    : [];
}

function spreadOf(notes: readonly JudgedNote[]): { ms: number; errorMs: number } | undefined {
  const offsets = offsetsMs(notes);
  const ms = robustSpread(offsets);
  return offsets.length < MIN_TIMED || ms === undefined
    ? undefined
    : { ms, errorMs: (MAD_ERROR * ms) / Math.sqrt(offsets.length) };
}

/** For ranking: half of Chebyshev's bound on the share of strokes beyond the tolerance. */
const outside = (spreadMs: number, toleranceMs: number) =>
  Math.min(1, (spreadMs / toleranceMs) ** 2) / 2;
