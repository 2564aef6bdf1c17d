import type { LaneFeed } from '../../live/lane-feed';

/** Up to where the paper is behind the player: the playhead, or farther where all is judged already. */
export class SpentTo {
  #judged = 0;

  at(feed: Pick<LaneFeed, 'noteCount' | 'noteTimeUs' | 'noteVerdict'>, nowUs: number): number {
    let judged = Math.min(this.#judged, feed.noteCount);
    while (judged > 0 && feed.noteVerdict[judged - 1] === 0) judged--;
    while (judged < feed.noteCount && feed.noteVerdict[judged] !== 0) judged++;
    this.#judged = judged;
    if (judged === 0) return nowUs;
    const lastUs = feed.noteTimeUs[judged - 1]!;
    if (lastUs < nowUs) return nowUs;
    const nextUs = judged < feed.noteCount ? feed.noteTimeUs[judged]! : lastUs + 1_000_000;
    return Math.max(nowUs, (lastUs + nextUs) / 2);
  }
}
