import type { Hearing } from '../hear-on';
import { clamp } from '../../time/whole';
import { graceLeadsMs } from '../grace-marks';
import type { StrokeInBeats } from '../played-stroke';

/** Between these, in ms, a player's spread is looked for. Chosen from standards: a good player to a beginner. */
const SPREAD_MS = { least: 3, most: 22 };
/** Grace notes come so long ahead of their main note, in ms, and scatter as two strokes do; being one costs so many nats. Chosen, not measured. */
const GRACE = { aheadMs: 30, scatterMs: 16, unlikely: 1 };
/**
 * What a stroke costs that is of no note, in nats to a millisecond: one in some seconds, on one of a few voices; and one
 * that is of a note but not near it, since that note is then missing. Chosen, not measured.
 */
const EXTRA = 9;
const ASTRAY = 12;
/** What a second stroke at a note costs more than the first: the louder one may have been its grace note. Chosen, not measured. */
const AGAIN = 1.5;
/** Half of the strokes that are extra are on the grid all the same. Chosen, not measured. */
const ON_GRID = 0.5;
const ROUNDS = 4;
const ROOT = Math.sqrt(2 * Math.PI);

/**
 * Nats, to a millisecond, that it takes to say when each stroke fell, given the cycle: those of a note are normal about
 * it with a spread in common, those of none may fall anywhere, a grace note about where such notes come ahead.
 */
export function timingCost(strokes: readonly StrokeInBeats[], hearing: Hearing): number {
  const { onGrid, marks, main, partialUs, cycle } = hearing;
  const partialMs = partialUs / 1000;
  const offMs = (i: number) => onGrid.offsets[i]! * partialMs;
  const isOfNote = new Uint8Array(strokes.length);
  const ofNotes: number[] = [];
  const isMain = new Uint8Array(strokes.length);
  main.forEach((i, k) => {
    isMain[i] = 1;
    if (cycle?.ofNotes[k] !== 1) return;
    isOfNote[i] = 1;
    ofNotes.push(offMs(i));
  });
  let cost = 0;
  const asGrace = graceLeadsMs(strokes).map(graceCost);
  const spread = spreadOf(ofNotes);
  strokes.forEach((_, i) => {
    const near = normal(offMs(i), spread);
    const grace = asGrace[i]! + (marks[i]! < 0 ? GRACE.unlikely : 0);
    const other =
      isMain[i] === 1 || marks[i]! >= 0
        ? EXTRA - Math.log(1 - ON_GRID + ON_GRID * partialMs * near)
        : AGAIN - Math.log(near);
    const note =
      isOfNote[i] === 1 ? -Math.log(near + Math.exp(-ASTRAY)) : Math.min(other, EXTRA + Math.LN2);
    cost += Math.min(note, grace);
  });
  return cost;
}

/** What a stroke costs as a grace note that comes so long ahead of its main note. */
function graceCost(leadMs: number): number {
  const off = (leadMs - GRACE.aheadMs) / GRACE.scatterMs;
  return Math.log(GRACE.scatterMs * ROOT) + (off * off) / 2;
}

/** The spread of offsets, ms, without those that are far off. */
function spreadOf(offsetsMs: readonly number[]): number {
  let spread = 12;
  for (let round = 0; round < ROUNDS; round++) {
    const near = offsetsMs.filter((off) => Math.abs(off) <= 3 * spread);
    const squares = near.reduce((sum, off) => sum + off * off, 0);
    const found = near.length > 0 ? Math.sqrt(squares / near.length) : spread;
    spread = clamp(found, SPREAD_MS.least, SPREAD_MS.most);
  }
  return spread;
}

const normal = (off: number, spread: number): number =>
  Math.exp(-0.5 * (off / spread) ** 2) / (spread * ROOT);
