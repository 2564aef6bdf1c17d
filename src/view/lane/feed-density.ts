import type { LaneFeed } from '../../live/lane-feed';
import { voiceNumber } from '../../phrase/model/voice';
import { firstAtOrAfter, firstFrom } from '../../time/first-from';

export interface FeedDensity {
  /**
   * Smallest distance between two main notes of one row, of those that the app plays by as much as their heads are
   * smaller; Infinity for fewer than two.
   */
  readonly rowGapUs: number;
  /** Smallest distance between two main notes that do not sound together. */
  readonly noteGapUs: number;
  /** Most main notes that sound together: how many lines the sticking needs. */
  readonly together: number;
}

/** Notes closer than this are meant together: a hundredth of a second is under any partial the app offers. */
const TOGETHER_US = 10_000;
const LOOK_AT = 600;
/** The head of a note that the app plays, of one that is asked for. */
export const SMALL_HEAD = 5 / 8;

/** How close the notes around `nowUs` stand, so that heads can be as large as they may. */
export function feedDensity(feed: LaneFeed, rowOf: Int8Array, nowUs: number): FeedDensity {
  const from = Math.max(
    0,
    Math.min(firstAtOrAfter(feed.noteTimeUs, feed.noteCount, nowUs), feed.noteCount - LOOK_AT),
  );
  const lastInRow = new Float64Array(rowOf.length + 1).fill(-Infinity);
  let rowGapUs = Infinity;
  let noteGapUs = Infinity;
  let together = 1;
  let run = 0;
  let previousUs = -Infinity;
  for (let i = from; i < feed.noteCount && i < from + LOOK_AT; i++) {
    if (feed.noteGraceStep[i] !== 0) continue;
    const timeUs = feed.noteTimeUs[i]!;
    const gapUs = timeUs - previousUs;
    if (gapUs < TOGETHER_US) together = Math.max(together, ++run);
    else {
      run = 1;
      noteGapUs = Math.min(noteGapUs, gapUs);
      previousUs = timeUs;
    }
    const row = rowOf[feed.noteVoice[i]!]! + 1;
    const rowGap = timeUs - lastInRow[row]!;
    if (rowGap >= TOGETHER_US) rowGapUs = Math.min(rowGapUs, rowGap);
    lastInRow[row] = timeUs;
  }
  rowGapUs = Math.min(rowGapUs, accompanyingGapUs(feed, rowOf, nowUs) / SMALL_HEAD);
  return { rowGapUs, noteGapUs, together: Math.min(together, 4) };
}

/** The smallest distance between two main notes of one row that the app plays. */
function accompanyingGapUs({ accompaniment }: LaneFeed, rowOf: Int8Array, nowUs: number): number {
  const after = firstFrom(accompaniment, ({ timeUs }) => timeUs, nowUs);
  const from = Math.max(0, Math.min(after, accompaniment.length - LOOK_AT));
  const lastInRow = new Float64Array(rowOf.length + 1).fill(-Infinity);
  let gapUs = Infinity;
  for (const { timeUs, note } of accompaniment.slice(from, from + LOOK_AT)) {
    if (note.graceStep !== 0) continue;
    const row = rowOf[voiceNumber(note.voice)]! + 1;
    const rowGap = timeUs - lastInRow[row]!;
    if (rowGap >= TOGETHER_US) gapUs = Math.min(gapUs, rowGap);
    lastInRow[row] = timeUs;
  }
  return gapUs;
}
