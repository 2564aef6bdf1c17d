import { COMMAND } from '../../kit/pad-fault';
import {
  LANE_LEVEL_VERDICTS,
  LANE_SET_ASIDE,
  LANE_VERDICTS,
  type LaneFeed,
} from '../../live/lane-feed';
import { LEVELS } from '../../phrase/model/level';
import { LIMBS, limbName } from '../../phrase/model/limb';
import { VOICES } from '../../phrase/model/voice';
import { isSilentAt } from '../../practice/sounds-between';
import { placeInWords } from './scroll-steps';
import { figureText, offsetText } from '../figures/format';

/** One note in words. */
export interface NoteRow {
  readonly note: number;
  /** With a word for it where its bar has no click. */
  readonly bar: string;
  readonly beat: string;
  readonly cycle: string;
  readonly position: string;
  readonly voice: string;
  readonly limb: string;
  readonly level: string;
  /** "not played yet" while nothing is decided. */
  readonly verdict: string;
  /** Voice really struck, when it was another one; else empty. */
  readonly struck: string;
  /** Signed, early negative; empty when nothing was played. */
  readonly offsetMs: string;
  readonly loudness: string;
}

/** A stroke that answers no note, in words. */
export interface ExtraRow {
  readonly stroke: number;
  readonly place: string;
  readonly voice: string;
  readonly velocity: number;
  /** "extra", "double trigger" or "crosstalk". */
  readonly why: string;
}

/**
 * The last `limit` notes that were judged; before the first verdict, the first that are written.
 * `before` says how many came earlier.
 */
export function noteRows(
  feed: LaneFeed,
  limit: number,
): { readonly rows: readonly NoteRow[]; readonly before: number } {
  let end = feed.noteCount;
  while (end > 0 && feed.noteVerdict[end - 1] === 0) end--;
  if (end === 0) end = Math.min(feed.noteCount, limit);
  const before = Math.max(0, end - limit);
  return {
    rows: Array.from({ length: end - before }, (_, i) => noteRow(feed, before + i)),
    before,
  };
}

function noteRow(feed: LaneFeed, note: number): NoteRow {
  const stroke = feed.noteStroke[note]!;
  const played = stroke >= 0 && feed.noteVerdict[note] !== 0;
  const voice = VOICES[feed.noteVoice[note]!]!;
  const struck = played ? VOICES[feed.strokeVoice[stroke]!]! : voice;
  const bar = feed.noteBar[note]!;
  const isSilent = isSilentAt(feed.marks, feed.noteTimeUs[note]!);
  const grace = feed.noteGraceStep[note] === 0 ? '' : ', grace';
  return {
    note,
    bar: bar === 0 ? 'pickup' : `${bar}${isSilent ? ', silent' : ''}`,
    beat: feed.noteBeatLabel[note]!,
    cycle: feed.noteCycle[note] === 0 ? '–' : String(feed.noteCycle[note]),
    position: figureText(feed.notePosition[note]),
    voice: voice + grace,
    limb: limbName(LIMBS[feed.noteLimb[note]!]!),
    level: LEVELS[feed.noteLevel[note]!]!,
    verdict:
      feed.noteVerdict[note] === 0 ? 'not played yet' : LANE_VERDICTS[feed.noteVerdict[note]!]!,
    struck: struck === voice ? '' : struck,
    offsetMs: played
      ? offsetText((feed.strokeTimeUs[stroke]! - feed.noteTimeUs[note]!) / 1000, 1)
      : '',
    loudness: played ? LANE_LEVEL_VERDICTS[feed.noteLevelVerdict[note]!]! : '',
  };
}

/** The last `limit` strokes that answer no note. */
export function extraRows(
  feed: LaneFeed,
  limit: number,
): { readonly rows: readonly ExtraRow[]; readonly before: number } {
  const rows: ExtraRow[] = [];
  let count = 0;
  for (let s = feed.strokeCount - 1; s >= 0; s--) {
    if (feed.strokeNote[s]! >= 0 || feed.strokeSetAside[s] === COMMAND) continue;
    if (++count > limit) continue;
    rows.push({
      stroke: s,
      place: placeInWords(feed.marks, feed.strokeTimeUs[s]!),
      voice: VOICES[feed.strokeVoice[s]!]!,
      velocity: feed.strokeVelocity[s]!,
      why: LANE_SET_ASIDE[feed.strokeSetAside[s]!] || 'extra',
    });
  }
  return { rows: rows.reverse(), before: Math.max(0, count - limit) };
}

/** A note that the app plays, in words. */
export interface AccompanyingRow {
  readonly place: string;
  readonly voice: string;
  readonly limb: string;
  readonly level: string;
}

/** The first `limit` notes that the app plays. */
export const accompanyingRows = (feed: LaneFeed, limit: number): readonly AccompanyingRow[] =>
  feed.accompaniment.slice(0, limit).map(({ timeUs, note }) => ({
    place: placeInWords(feed.marks, timeUs),
    voice: note.graceStep === 0 ? note.voice : `${note.voice}, grace`,
    limb: limbName(note.limb),
    level: note.level,
  }));
