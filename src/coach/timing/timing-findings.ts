import type { TimedNote } from '../../match/timed-note';
import { layerShape } from '../../phrase/layers/layer-shape';
import { equivalent } from '../../score/statistics/equivalence';
import { meanOfUnits } from '../../score/cycle-means';
import { tTwoSided } from '../../score/statistics/student-t';
import { certaintyOf, type Certainty } from '../evidence/certainty';
import { classContrasts } from '../evidence/class-contrasts';
import { AGREEMENT, agreementOf, unitMeans } from '../evidence/contrast';
import type { Evidence } from '../evidence/evidence';
import { FEWEST_UNITS, LEAST_NOTES, notesToTell } from '../evidence/units';
import { finding, type Finding } from '../finding';
import { isOnTheClick, placingsOf, type Explanation, type Placing } from './placings';
import { spreadsOf } from './spreads';

/** What is told of the time of a take beside its course. */
export function timingFindings(evidence: Evidence): Finding[] {
  const explanation = placingsOf(evidence);
  return [
    ...explanation.placings.map((placing) => placingFinding(evidence, placing)),
    ...allOff(evidence, explanation),
    ...spreadFindings(evidence, explanation),
  ];
}

/** What can be said where nothing is at fault. */
export function noFault(evidence: Evidence): Finding {
  const { plan, layer, units, judgement, noticeableMs } = evidence;
  const strokes = judgement.notes.filter(({ stroke }) => stroke).length;
  if (units.count < FEWEST_UNITS) {
    // What begins in mid-bar, or lost its place, may make fewer units of as many.
    const of = Math.max(notesToTell(plan.phrase, layer), strokes + 1);
    return finding('undecided', 0, [], { strokes, of });
  }
  if (strokes < LEAST_NOTES) return finding('undecided', 0, [], { strokes, of: LEAST_NOTES });
  return isEven(evidence)
    ? finding('even', 0, [], { ms: noticeableMs })
    : finding('nothing stands out', 0, [], undefined);
}

/** Shown to be even: every limb, voice and partial within what is noticeable of the rest. */
function isEven(evidence: Evidence): boolean {
  const { classes, offsets, noticeableMs } = evidence;
  const broad = classContrasts(evidence, offsets).filter((_, i) =>
    ['swing', 'partial', 'limb', 'voice'].includes(classes[i]!.causes[0]!.kind),
  );
  return (
    broad.length > 0 &&
    broad.every((one) => one && equivalent(one.mean, one.error, one.df, noticeableMs))
  );
}

function placingFinding(evidence: Evidence, placing: Placing): Finding {
  const { cause, isOfLimb, apart, ownMs, restMs } = placing;
  const { judgement, toleranceMs, noticeableMs } = evidence;
  const notes = cause.notes.map((at) => judgement.notes[at]!.due);
  const isOwn = isOnTheClick(restMs, noticeableMs);
  const ms = isOwn ? ownMs : apart.mean;
  const share = notes.length / judgement.notes.length;
  const weight = (Math.min(1, Math.abs(ms) / toleranceMs) / 2) * share;
  const sure = certaintyOf(timedOf(evidence, cause.notes), apart);
  if (cause.kind === 'swing') {
    const swing = swingFacts(evidence, apart.mean, sure);
    return finding('swing', weight, notes, swing);
  }
  const facts = { name: cause.name, ms, isOwn, sure };
  switch (cause.kind) {
    case 'layer':
      return finding('layer off', weight, notes, { ...facts, layer: cause.layer! });
    case 'unison':
      return finding('unison off', weight, notes, { ...facts, limbs: cause.limbs! });
    case 'partial':
      return finding('partial off', weight, notes, { ...facts, isOfLimb });
    default:
      return finding(`${cause.kind} off`, weight, notes, facts);
  }
}

/** Of some notes (indices), those that have an offset. */
const timedOf = ({ offsets, judgement }: Evidence, notes: readonly number[]): TimedNote[] =>
  notes.filter((at) => !Number.isNaN(offsets[at]!)).map((at) => judgement.notes[at]!.due);

/** Long over short as written, and as played where the off-beats lie so much later, ms. */
function swingFacts(evidence: Evidence, apartMs: number, sure: Certainty) {
  const { swing } = layerShape(evidence.plan.phrase, evidence.layer);
  const played = (ms: number) => playedRatio(evidence, ms);
  const { lower, upper } = sure.interval;
  const interval = { lower: played(lower), upper: played(upper) };
  return { written: swing!.valueOf(), played: played(apartMs), sure: { ...sure, interval } };
}

/** Long over short of a layer with swing, as it is played where the off-beats lie so much later, ms. */
export function playedRatio({ plan, layer, judgement }: Evidence, apartMs: number): number {
  const { swing, partialBeats } = layerShape(plan.phrase, layer);
  const written = swing!.valueOf();
  const bpm = plan.tempo.bpmAt(judgement.notes.at(-1)!.due.note.onset);
  const pairMs = (2 * partialBeats.valueOf() * 60_000) / bpm;
  const share = written / (1 + written) + apartMs / pairMs;
  return share / (1 - share);
}

/** Share of the tolerance from which an offset of everything is told: less is the rig, or feel. Chosen, not measured. */
const COSTLY = 1 / 2;
/** Of the error rate, what an offset of everything may use up. Chosen, not measured. */
const SHARE_OF_ERROR = 0.1;

function allOff(evidence: Evidence, { residuals, placings }: Explanation): Finding[] {
  const { judgement, toleranceMs, noticeableMs, units, errorRate } = evidence;
  if (placings.length > 0 || units.count < FEWEST_UNITS) return [];
  const all = unitMeans(residuals, units, [...residuals.keys()]);
  const means = [...all.mean].filter((ms) => !Number.isNaN(ms));
  if (means.length < FEWEST_UNITS) return [];
  const own = meanOfUnits(means);
  const { mean: ms, error, df } = own;
  if (Math.abs(ms) < Math.max(noticeableMs, COSTLY * toleranceMs)) return [];
  if (agreementOf(means, ms) < AGREEMENT) return [];
  if (error > 0 && !(tTwoSided(ms / error, df) < SHARE_OF_ERROR * errorRate)) return [];
  const notes = judgement.notes.map(({ due }) => due);
  const sure = certaintyOf(timedOf(evidence, [...notes.keys()]), own);
  const weight = Math.min(1, Math.abs(ms) / toleranceMs) / 2;
  return [finding('all strokes off', weight, notes, { ms, sure })];
}

function spreadFindings(evidence: Evidence, { residuals }: Explanation): Finding[] {
  const { judgement, toleranceMs } = evidence;
  const { all, isWide, uneven, growth } = spreadsOf(evidence, residuals);
  const dues = judgement.notes.map(({ due }) => due);
  const found: Finding[] = [];
  if (growth) found.push(finding('spread grows', outside(growth.toMs, toleranceMs), dues, growth));
  if (uneven) {
    const { cause, ms, restMs } = uneven;
    const notes = cause.notes.map((at) => dues[at]!);
    const weight = outside(ms, toleranceMs) * (notes.length / dues.length);
    found.push(finding('spread apart', weight, notes, { name: cause.name, ms, restMs }));
  } else if (isWide && !growth)
    found.push(finding('spread', outside(all!, toleranceMs), dues, { ms: all! }));
  return found;
}

/** For ranking: half of Chebyshev's bound on the share of strokes beyond the tolerance. */
const outside = (spreadMs: number, toleranceMs: number) =>
  Math.min(1, (spreadMs / toleranceMs) ** 2) / 2;
