import { median } from 'simple-statistics';
import type { MeanOfUnits } from '../../score/cycle-means';
import { holm } from '../../score/holm';
import { tTwoSided } from '../../score/student-t';
import type { Cause, CauseClass } from '../evidence/causes';
import { contrastOf, type Contrast } from '../evidence/contrast';
import type { Evidence } from '../evidence/evidence';
import { FEWEST_UNITS } from '../evidence/units';

/** Notes that are played apart in time from the rest, with one cause. */
export interface Placing {
  readonly cause: Cause;
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

/** Share of the units in which an offset has the same sign at least. Chosen, not measured. */
const AGREEMENT = 0.75;
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
  const { classes, units, offsets, errorRate } = evidence;
  const residuals = Float64Array.from(offsets);
  const level = SHARE_OF_ERROR * errorRate;
  const placings: Placing[] = [];
  for (let step = 0; step < MOST_CAUSES; step++) {
    let best: { classOf: CauseClass; contrast: Contrast } | undefined;
    const plain = classes.map(({ group, rest }) => contrastOf(residuals, units, group, rest));
    const usual = usualVariance(plain);
    const contrasts = plain.map((one) => one && moderated(one, usual));
    const chances = holm(contrasts.map(chanceOf));
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

/** How many units' worth of evidence the other contrasts are about one's error. Chosen, not measured. */
const PRIOR_DEGREES = 8;

/** Squared error over what it would be if strokes did not go together, in the middle of all contrasts. */
function usualVariance(contrasts: readonly (Contrast | undefined)[]): number {
  const ratios = contrasts.flatMap((one) =>
    one && one.df + 1 >= FEWEST_UNITS ? [one.error ** 2 / oneOverNotes(one)] : [],
  );
  return ratios.length > 0 ? median(ratios) : 0;
}

const oneOverNotes = ({ notes, others }: Contrast): number => 1 / notes + 1 / others;

/**
 * A contrast whose error leans on that of the others, since few units tell little of it: the moderated t of Smyth 2004
 * (Stat. Appl. Genet. Mol. Biol. 3:3), with a prior of stated weight.
 */
function moderated(contrast: Contrast, usual: number): Contrast {
  const { error, df } = contrast;
  const prior = usual * oneOverNotes(contrast);
  const variance = (PRIOR_DEGREES * prior + df * error ** 2) / (PRIOR_DEGREES + df);
  return { ...contrast, error: Math.sqrt(variance), df: df + PRIOR_DEGREES };
}

/** Sum of squares that the difference takes away. */
const explained = ({ mean, notes, others }: Contrast): number =>
  (mean * mean * notes * others) / (notes + others);

/** Of so large a difference where there is none; 1 where too few units tell. */
function chanceOf(contrast: Contrast | undefined): number {
  if (!contrast || contrast.mean === 0 || contrast.df + 1 < FEWEST_UNITS + PRIOR_DEGREES) return 1;
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
  if (other && Math.abs(restMs) > Math.abs(ownMs))
    return { cause: other, apart: { mean: -mean, error, df }, ownMs: restMs, restMs: ownMs };
  return { cause: causes[0]!, apart: { mean, error, df }, ownMs, restMs };
}

/** Limbs that are surely closer than this are not told apart, ms: professionals' are 8 to 9 ms apart (Fujii et al. 2011). */
const LIMBS_APART_MS = 10;
/** The hi-hat leads the pulse by up to this, ms, in professionals' playing. */
const HI_HAT_LEAD_MS = 26;
const LEADING = /^hi-hat/;

function isWorthTelling(
  { cause, apart: { mean: apartMs, error }, ownMs, restMs }: Placing,
  { noticeableMs, judgement }: Evidence,
): boolean {
  const isLimb = cause.kind === 'limb' || cause.kind === 'voice';
  if (Math.abs(apartMs) < noticeableMs) return false;
  if (isLimb && Math.abs(apartMs) + error < LIMBS_APART_MS) return false;
  if (isOnTheClick(restMs, noticeableMs) && Math.abs(ownMs) < noticeableMs) return false;
  const leads = cause.notes.every((at) => LEADING.test(judgement.notes[at]!.due.note.voice));
  return !(leads && apartMs < 0 && apartMs >= -HI_HAT_LEAD_MS);
}

/** Whether the rest is so near the click that the notes' own offset is the one to tell. */
export const isOnTheClick = (restMs: number, noticeableMs: number): boolean =>
  Math.abs(restMs) < noticeableMs;

function meanAt(values: Float64Array, places: readonly number[]): number {
  let sum = 0;
  let count = 0;
  for (const at of places)
    if (!Number.isNaN(values[at]!)) {
      sum += values[at]!;
      count++;
    }
  return count > 0 ? sum / count : 0;
}
