import { LANE_VERDICTS, type AccompanyingNote, type LaneFeed } from '../../live/lane-feed';
import { voiceNumber } from '../../phrase/model/voice';
import { firstAtOrAfter, firstFrom } from '../../time/first-from';
import { firstCycleEndingAfter, firstMarkAtOrAfter } from './first-visible';
import type { PaperStretch } from './printed-paper';

const MISSED = LANE_VERDICTS.indexOf('missed');

/** One step of the FNV-1a hash (Fowler, Noll, Vo), over 32-bit numbers instead of bytes. */
const mix = (hash: number, value: number): number => Math.imul(hash ^ value, 0x01000193);

const timeOf = ({ timeUs }: AccompanyingNote): number => timeUs;

/**
 * A number that changes whenever something printed between two times does: notes, accompaniment, marks, cycles,
 * and behind the player the notes that were missed. Read every frame; allocates nothing.
 */
export function printMark(feed: LaneFeed, { fromUs, toUs, spent }: PaperStretch): number {
  let hash = 0x811c9dc5;
  for (
    let i = firstAtOrAfter(feed.noteTimeUs, feed.noteCount, fromUs);
    i < feed.noteCount && feed.noteTimeUs[i]! <= toUs;
    i++
  ) {
    hash = mix(hash, feed.noteTimeUs[i]!);
    hash = mix(hash, feed.noteVoice[i]! | (feed.noteLevel[i]! << 8) | (feed.noteLimb[i]! << 16));
    hash = mix(hash, feed.noteGraceStep[i]! | (feed.noteReachUs[i]! << 4));
    hash = mix(hash, feed.noteToleranceUs[i]!);
    if (spent) hash = mix(hash, feed.noteVerdict[i] === MISSED ? 1 : 0);
  }
  const { accompaniment, marks, cycles } = feed;
  for (let i = firstFrom(accompaniment, timeOf, fromUs); i < accompaniment.length; i++) {
    const { timeUs, note } = accompaniment[i]!;
    if (timeUs > toUs) break;
    hash = mix(hash, timeUs);
    hash = mix(hash, voiceNumber(note.voice) | (note.level.length << 8));
  }
  for (let i = firstMarkAtOrAfter(marks, fromUs); i < marks.length; i++) {
    const mark = marks[i]!;
    if (mark.timeUs > toUs) break;
    hash = mix(hash, mark.timeUs);
    hash = mix(hash, mark.bar);
    hash = mix(hash, (mark.isSilent ? 1 : 0) | (mark.isCountIn ? 2 : 0));
    hash = mix(hash, mark.kind.length);
    for (let c = 0; c < mark.label.length; c++) hash = mix(hash, mark.label.charCodeAt(c));
  }
  for (let i = firstCycleEndingAfter(cycles, fromUs); i < cycles.length; i++) {
    const { startUs, endUs } = cycles[i]!;
    if (startUs > toUs) break;
    hash = mix(mix(hash, startUs), endUs);
  }
  return hash;
}
