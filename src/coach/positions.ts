import type { Limb } from '../phrase/model/limb';
import type { JudgedNote } from '../score/judged-note';
import { placeOf, type Evidence } from './evidence';
import { finding, type Finding } from './finding';

/** Offsets that one position needs: it comes once a cycle. Chosen, not measured. */
const MIN_CYCLES = 8;
/** Stricter than for limbs, since the worst of many positions is picked. */
const POSITION_ERRORS = 4;

/** What one limb plays at one position of the cycle. */
export interface Spot {
  readonly position: number;
  readonly limb: Limb;
  readonly notes: readonly JudgedNote[];
}

/** Every position of the cycle by limb, so that a unison is told apart. Pickups come too seldom and stay out. */
export function spotsOf(notes: readonly JudgedNote[]): Spot[] {
  const spots = new Map<string, Spot & { notes: JudgedNote[] }>();
  for (const note of notes) {
    const { position, limb } = note.due.note;
    if (position < 1) continue;
    const key = `${position}|${limb}`;
    const spot = spots.get(key) ?? { position, limb, notes: [] };
    spot.notes.push(note);
    spots.set(key, spot);
  }
  return [...spots.values()];
}

/**
 * The position that stands farthest off in time from what its limb does elsewhere. When the limb is on
 * the click elsewhere the position's own offset is told, else its distance to the limb's others.
 */
export function positions({ judgement, score, toleranceMs, noticeableMs }: Evidence): Finding[] {
  let worst: { spot: Spot; ms: number; ownMs: number; usualMs: number } | undefined;
  for (const spot of spotsOf(judgement.notes)) {
    const here = placeOf(spot.notes, MIN_CYCLES);
    const elsewhere = judgement.notes.filter(
      ({ due: { note } }) => note.limb === spot.limb && note.position !== spot.position,
    );
    const usual = placeOf(elsewhere, MIN_CYCLES);
    if (!here || !usual) continue;
    const ms = here.ms - usual.ms;
    const errorMs = Math.hypot(here.errorMs, usual.errorMs);
    if (Math.abs(ms) <= Math.max(POSITION_ERRORS * errorMs, noticeableMs)) continue;
    if (!worst || Math.abs(ms) > Math.abs(worst.ms))
      worst = { spot, ms, ownMs: here.ms, usualMs: usual.ms };
  }
  if (!worst) return [];
  const { spot, ms, ownMs, usualMs } = worst;
  const { position, limb, notes } = spot;
  const weight = Math.min(1, Math.abs(ms) / toleranceMs) * (notes.length / score.overall.count);
  return Math.abs(usualMs) < noticeableMs
    ? [finding('position off', weight, { position, limb, ms: ownMs })]
    : [finding('position apart', weight, { position, limb, ms })];
}
