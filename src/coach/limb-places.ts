import type { Limb } from '../phrase/model/limb';
import { ERRORS, placeOf, type Evidence } from './evidence';
import { finding, type Finding } from './finding';

/**
 * Steady offsets: one limb against the rest, or everything together. The limb that stands farthest
 * from the rest is told; of two limbs that only differ from each other, the one farther from the
 * click. When the rest is on the click the limb's own offset is told, else its distance to the rest.
 */
export function limbPlaces({ judgement, score, toleranceMs, noticeableMs }: Evidence): Finding[] {
  const weigh = (ms: number, notes: number) =>
    (Math.min(1, Math.abs(ms) / toleranceMs) / 2) * (notes / score.overall.count);
  let farthest:
    { limb: Limb; ms: number; apartMs: number; restMs: number; notes: number } | undefined;
  for (const [limb, figures] of score.byLimb) {
    const place = placeOf(judgement.notes.filter(({ due }) => due.note.limb === limb));
    const rest = placeOf(judgement.notes.filter(({ due }) => due.note.limb !== limb));
    if (!place || !rest) continue;
    const apartMs = place.ms - rest.ms;
    const errorMs = Math.hypot(place.errorMs, rest.errorMs);
    if (Math.abs(apartMs) <= Math.max(ERRORS * errorMs, noticeableMs)) continue;
    const far = Math.abs(apartMs) - Math.abs(farthest?.apartMs ?? 0);
    if (far > 1e-9 || (far > -1e-9 && Math.abs(place.ms) > Math.abs(farthest?.ms ?? 0)))
      farthest = { limb, ms: place.ms, apartMs, restMs: rest.ms, notes: figures.count };
  }
  if (!farthest) {
    const all = placeOf(judgement.notes);
    return all && Math.abs(all.ms) > Math.max(ERRORS * all.errorMs, noticeableMs)
      ? [finding('all strokes off', weigh(all.ms, score.overall.count), { ms: all.ms })]
      : [];
  }
  const { limb, ms, apartMs, restMs, notes } = farthest;
  return Math.abs(restMs) < noticeableMs
    ? [finding('limb off', weigh(ms, notes), { limb, ms })]
    : [finding('limb apart', weigh(apartMs, notes), { limb, ms: apartMs })];
}
