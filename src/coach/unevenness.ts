import type { JudgedNote } from '../score/judged-note';
import { robustSpread, spread } from '../score/spread';
import { Z_95 } from '../score/wilson';
import { ERRORS, MIN_TIMED, offsetsMs, type Evidence } from './evidence';
import { finding, type Finding } from './finding';

/** A limb is told as uneven when it spreads this many times the rest. Chosen, not measured. */
const TIMES_THE_REST = 1.5;
/** Standard error of the scaled MAD of a normal sample, in spreads over √n: √1.361, asymptotically. */
const MAD_ERROR = 1.167;

/**
 * Spread: first the limb that spreads clearly more than the rest, else the whole when its 95 % range is
 * wider than the tolerance. Told as the standard deviation, which is what the word means everywhere,
 * but only when the robust spread agrees, so that one wild stroke is not told as unevenness.
 */
export function unevenness({ judgement, score, toleranceMs }: Evidence): Finding[] {
  const costs = ({ ms, robustMs }: Spread) => Z_95 * Math.min(ms, robustMs) > toleranceMs;
  const found: { finding: Finding; ratio: number }[] = [];
  for (const [limb, { count }] of score.byLimb) {
    const own = spreadOf(judgement.notes.filter(({ due }) => due.note.limb === limb));
    const rest = spreadOf(judgement.notes.filter(({ due }) => due.note.limb !== limb));
    if (!own || !rest || !costs(own) || !clearlyMore(own, rest)) continue;
    const weight = outside(own.ms, toleranceMs) * (count / score.overall.count);
    found.push({
      finding: finding('limb uneven', weight, { limb, ms: own.ms, restMs: rest.ms }),
      ratio: own.ms / rest.ms,
    });
  }
  if (found.length > 0) return [found.sort((a, b) => b.ratio - a.ratio)[0]!.finding];
  const all = spreadOf(judgement.notes);
  if (!all || !costs(all)) return [];
  const facts = { ms: all.ms, aimMs: toleranceMs / Z_95 };
  return [finding('wide spread', outside(all.ms, toleranceMs), facts)];
}

interface Spread {
  readonly ms: number;
  readonly robustMs: number;
  readonly errorMs: number;
}

function spreadOf(notes: readonly JudgedNote[]): Spread | undefined {
  const offsets = offsetsMs(notes);
  const ms = spread(offsets);
  const robustMs = robustSpread(offsets);
  if (offsets.length < MIN_TIMED || ms === undefined || robustMs === undefined) return undefined;
  return { ms, robustMs, errorMs: (MAD_ERROR * robustMs) / Math.sqrt(offsets.length) };
}

const clearlyMore = (own: Spread, rest: Spread): boolean =>
  own.ms >= TIMES_THE_REST * rest.ms &&
  own.robustMs >= TIMES_THE_REST * rest.robustMs &&
  own.robustMs - rest.robustMs > ERRORS * Math.hypot(own.errorMs, rest.errorMs);

/** For ranking: half of Chebyshev's bound on the share of strokes beyond the tolerance. */
const outside = (spreadMs: number, toleranceMs: number) =>
  Math.min(1, (spreadMs / toleranceMs) ** 2) / 2;
