import type { LaneFeed, LaneMark } from '../../live/lane-feed';
import { firstMarkAtOrAfter } from './first-visible';

/** From the first thing written or played to the last, integer microseconds. */
export function takeEnds(
  feed: Pick<LaneFeed, 'noteCount' | 'noteTimeUs' | 'strokeCount' | 'strokeTimeUs'>,
): { readonly startUs: number; readonly endUs: number } {
  let startUs = feed.noteCount > 0 ? feed.noteTimeUs[0]! : Infinity;
  let endUs = feed.noteCount > 0 ? feed.noteTimeUs[feed.noteCount - 1]! : -Infinity;
  for (let s = 0; s < feed.strokeCount; s++) {
    startUs = Math.min(startUs, feed.strokeTimeUs[s]!);
    endUs = Math.max(endUs, feed.strokeTimeUs[s]!);
  }
  return startUs > endUs ? { startUs: 0, endUs: 0 } : { startUs, endUs };
}

/**
 * The next beat (or bar line) from a time, on either side; the time itself when there is none.
 *
 * @example stepFrom([{ timeUs: 0, kind: 'bar' }, { timeUs: 500, kind: 'beat' }], 0, 'beat', 1) // => 500
 */
export function stepFrom(
  marks: readonly Pick<LaneMark, 'timeUs' | 'kind'>[],
  fromUs: number,
  by: 'beat' | 'bar',
  direction: -1 | 1,
): number {
  const at = firstMarkAtOrAfter(marks, fromUs + (direction > 0 ? 1 : 0));
  for (let i = direction > 0 ? at : at - 1; i >= 0 && i < marks.length; i += direction) {
    const { kind, timeUs } = marks[i]!;
    if (kind === 'bar' || kind === by) return timeUs;
  }
  return fromUs;
}

/**
 * Where a time is, in words.
 *
 * @example placeInWords([{ timeUs: 0, kind: 'bar', bar: 3, label: '1' }, { timeUs: 500, kind: 'partial', bar: 3, label: '&' }], 700) // => 'bar 3, beat 1 &'
 */
export function placeInWords(marks: readonly LaneMark[], atUs: number): string {
  const at = firstMarkAtOrAfter(marks, atUs + 1) - 1;
  const mark = marks[at];
  if (!mark) return 'before bar 1';
  let beat = at;
  while (beat > 0 && marks[beat]!.kind === 'partial') beat--;
  const syllable = mark.kind === 'partial' && mark.label !== '' ? ` ${mark.label}` : '';
  const bar = mark.bar < 1 ? 'pickup' : `bar ${mark.bar}`;
  return `${bar}, beat ${marks[beat]!.label}${syllable}`;
}
