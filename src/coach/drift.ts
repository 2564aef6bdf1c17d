import { sampleStandardDeviation } from 'simple-statistics';
import { isTimed } from '../score/figures';
import { ERRORS, MIN_TIMED, type Evidence } from './evidence';
import { finding, type Finding } from './finding';

/** A trend over less is a fill, not a drift, s. Chosen, not measured. */
const SHORTEST_S = 15;

/**
 * Dragging or rushing: the Theil-Sen slope over the take, told when what it adds up to is noticeable
 * and the slope exceeds its standard error (robust spread / (SD of the times · √n)).
 */
export function drift({ judgement, score, toleranceMs, noticeableMs }: Evidence): Finding[] {
  const { driftMsPerMinute, robustSpreadMs } = score.overall;
  const timed = judgement.notes.filter(isTimed);
  if (
    driftMsPerMinute === undefined ||
    robustSpreadMs === undefined ||
    timed.length < 2 * MIN_TIMED
  )
    return [];
  const minutes = timed.map(({ due }) => due.timeUs / 60e6);
  const lasting = minutes.at(-1)! - minutes[0]!;
  if (lasting * 60 < SHORTEST_S) return [];
  const error = robustSpreadMs / (sampleStandardDeviation(minutes) * Math.sqrt(timed.length));
  const ms = driftMsPerMinute * lasting;
  if (Math.abs(ms) <= noticeableMs || Math.abs(driftMsPerMinute) <= ERRORS * error) return [];
  return [finding('drift', Math.min(1, Math.abs(ms) / toleranceMs) / 2, { ms })];
}
