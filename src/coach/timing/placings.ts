import type { MeanOfUnits } from '../../score/cycle-means';
import { holm } from '../../score/statistics/holm';
import { tTwoSided } from '../../score/statistics/student-t';
import type { Cause, CauseClass, CauseKind } from '../evidence/causes';
import { classContrasts } from '../evidence/class-contrasts';
import { AGREEMENT, type Contrast } from '../evidence/contrast';
import type { Evidence } from '../evidence/evidence';

/** Notes that are played apart in time from the rest, with one cause. */
export interface Placing {
  readonly cause: Cause;
  /** Whether they, or the rest, are all that a limb or a voice strikes: no take tells that from another cause of theirs. */
  readonly isOfLimb: boolean;
  /** From the rest, ms, early negative, and how far to trust it. */
  readonly apart: MeanOfUnits;
  /** From the click, ms. */
  readonly ownMs: number;
  readonly restMs: number;
}

/** What is removed before the next is looked for: an effect on the notes of a cause. */
export interface Explanation {
  /** Worth telling, in the order in which they explain most. */
  readonly placings: readonly Placing[];
  /** What no cause explains: of each note in ms, NaN where none is told. */
  readonly residuals: Float64Array;
}

/** More causes at once are none. Chosen, not measured. */
const MOST_CAUSES = 6;
/** Of the error rate, what placings may use up: the rest is for spread, course and levels. Chosen, not measured. */
const SHARE_OF_ERROR = 0.4;

/**
 * Explains offsets by causes, the one that explains most first: a step forward in a regression on one indicator a cause
 * class (forward selection, Efroymson 1960 [M]). Each step's p-values are t tests on unit means, adjusted for being looked at
 * together (Holm), and the difference has to be alike in most units. What it explains is removed, told or not.
 */
export function placingsOf(evidence: Evidence): Explanation {
  const { classes, offsets, errorRate } = evidence;
  const residuals = Float64Array.from(offsets);
  const level = SHARE_OF_ERROR * errorRate;
  const placings: Placing[] = [];
  for (let step = 0; step < MOST_CAUSES; step++) {
    let best: { classOf: CauseClass; contrast: Contrast } | undefined;
    const contrasts = classContrasts(evidence, residuals);
    const chances = togetherIn(classes, contrasts.map(chanceOf));
    for (const [i, classOf] of classes.entries()) {
      const contrast = contrasts[i];
      if (!contrast || chances[i]! >= level || contrast.agreement < AGREEMENT) continue;
      if (!best || explained(contrast) > explained(best.contrast)) best = { classOf, contrast };
    }
    if (!best) break;
    const { classOf, contrast } = best;
    const placing = placingOf(classOf, residuals, contrast);
    if (isWorthTelling(placing, evidence)) placings.push(placing);
    for (const at of placing.cause.notes) residuals[at]! -= placing.apart.mean;
  }
  return { placings, residuals };
}

/** What of their error rate single places of the phrase may use up, of which there are many. Chosen by counting claims, not measured. */
const NARROW_SHARE = 0.25;
const NARROW: ReadonlySet<CauseKind> = new Set(['position', 'transition']);

/** Chances adjusted for being looked at together: limbs and the like as one family, single places as another. */
function togetherIn(classes: readonly CauseClass[], chances: readonly number[]): number[] {
  const adjusted = [...chances];
  for (const [isNarrow, share] of [
    [false, 1 - NARROW_SHARE],
    [true, NARROW_SHARE],
  ] as const) {
    const own = [...classes.keys()].filter(
      (i) => NARROW.has(classes[i]!.causes[0]!.kind) === isNarrow,
    );
    holm(own.map((i) => chances[i]!)).forEach((chance, rank) => {
      adjusted[own[rank]!] = chance / share;
    });
  }
  return adjusted;
}

/** Sum of squares that the difference takes away. */
const explained = ({ mean, notes, others }: Contrast): number =>
  (mean * mean * notes * others) / (notes + others);

/** Of so large a difference where there is none; 1 where too few units tell. */
function chanceOf(contrast: Contrast | undefined): number {
  if (!contrast || contrast.mean === 0) return 1;
  const { mean, error, df } = contrast;
  return error === 0 ? 0 : tTwoSided(mean / error, df);
}

/** Of the two sides of a difference, the one farther from the click is at fault, where it has a name. */
function placingOf(
  { group, rest, causes, opposite }: CauseClass,
  residuals: Float64Array,
  { mean, error, df }: Contrast,
): Placing {
  const ownMs = meanAt(residuals, group);
  const restMs = meanAt(residuals, rest);
  const [other] = opposite;
  const isOfLimb = [...causes, ...opposite].some(({ kind }) => kind === 'limb' || kind === 'voice');
  if (other && Math.abs(restMs) > Math.abs(ownMs)) {
    const apart = { mean: -mean, error, df };
    return { cause: other, isOfLimb, apart, ownMs: restMs, restMs: ownMs };
  }
  return { cause: causes[0]!, isOfLimb, apart: { mean, error, df }, ownMs, restMs };
}

/**
 * Limbs that are surely closer than this, by a standard error, are not told apart, ms: professionals' are 8 to 9 ms apart (Fujii et al. 2011).
 * An estimate below it may still be of limbs that are 12 ms apart: if it had to reach 10 ms itself, these would be told in 96 of 100
 * takes and not in all, with scatter of 8 ms. What is told is a fact: steadily, unless it is meant.
 */
const LIMBS_APART_MS = 10;
/** The hi-hat leads the pulse by up to this, ms, in professionals' playing. */
const HI_HAT_LEAD_MS = 26;
const LEADING = /^hi-hat/;

function isWorthTelling(
  { cause, isOfLimb, apart: { mean: apartMs, error }, ownMs, restMs }: Placing,
  { noticeableMs, judgement }: Evidence,
): boolean {
  if (Math.abs(apartMs) < noticeableMs) return false;
  const isBetweenLimbs = isOfLimb || cause.kind === 'unison';
  if (isBetweenLimbs && Math.abs(apartMs) + error < LIMBS_APART_MS) return false;
  if (isOnTheClick(restMs, noticeableMs) && Math.abs(ownMs) < noticeableMs) return false;
  const leads = cause.notes.every((at) => LEADING.test(judgement.notes[at]!.due.note.voice));
  return !(leads && apartMs < 0 && apartMs >= -HI_HAT_LEAD_MS);
}

/** Whether the rest is so near the click that the notes' own offset is the one to tell. */
export const isOnTheClick = (restMs: number, noticeableMs: number): boolean =>
  Math.abs(restMs) < noticeableMs;

/** The mean of some values (indices), NaN left out; 0 of none. */
export function meanAt(values: Float64Array, places: readonly number[]): number {
  let sum = 0;
  let count = 0;
  for (const at of places)
    if (!Number.isNaN(values[at]!)) {
      sum += values[at]!;
      count++;
    }
  return count > 0 ? sum / count : 0;
}
