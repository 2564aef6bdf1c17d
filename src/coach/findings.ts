import { median } from 'simple-statistics';
import type { LevelBoundaries } from '../kit/kit';
import type { TimedNote } from '../match/timed-note';
import type { Judgement } from '../score/judge';
import { nearestNote } from '../score/nearest-note';
import { scoreTake } from '../score/score-take';
import { drift } from './drift';
import { MIN_TIMED, type Evidence } from './evidence';
import { finding, type Finding } from './finding';
import { justNoticeableMs } from './just-noticeable';
import { levels } from './levels';
import { limbPlaces } from './limb-places';
import { lostPlace, type Slip } from './lost-place';
import { missedNotes } from './missed-notes';
import { positions } from './positions';
import { unevenness } from './unevenness';
import { voices } from './voices';

const DETECTORS = [limbPlaces, unevenness, drift, positions, missedNotes, levels, voices];

/**
 * What is worth acting on in the layer played last, most first; never empty. A lost place comes before
 * everything, and the rest is then told from the cycles that kept it. Nothing is told that has happened
 * too seldom, is smaller than its standard error allows, or would not be noticed.
 *
 * @param boundaries the player's level boundaries for a pad (MIDI note number)
 * @example findings({ notes: [], extras: [] }, () => ({ ghostMax: 50, accentMin: 95 })).map(({ code }) => code) // => ['too little']
 */
export function findings(
  judgement: Judgement,
  boundaries: (pad: number) => LevelBoundaries,
): Finding[] {
  const layer = judgement.notes.at(-1)?.due.layer;
  const played = restrict(judgement, (due) => due.layer === layer);
  const slip = lostPlace(played, boundaries);
  const slipped = slip ? [finding('lost place', 1, slip)] : [];
  const kept = slip ? restrict(played, (due) => !slippedAt(slip, due)) : played;
  const score = scoreTake(kept);
  if (score.overall.answered < MIN_TIMED)
    return slip ? slipped : [finding('too little', 0, undefined)];

  const dues = kept.notes.map(({ due }) => due);
  const evidence: Evidence = {
    judgement: kept,
    score,
    boundaries,
    toleranceMs: median(dues.map((due) => due.toleranceUs)) / 1000,
    noticeableMs: justNoticeableMs(intervalMs(dues)),
  };
  const found = DETECTORS.flatMap((detect) => detect(evidence));
  // An offset that grows is no steady one: the drift says it all.
  const drifts = found.some(({ code }) => code === 'drift');
  const told = found
    .filter(({ code }) => !(drifts && code === 'all strokes off'))
    .sort((a, b) => b.weight - a.weight);
  if (slip || told.length > 0) return [...slipped, ...told];
  return [finding('nothing stands out', 0, { spreadMs: score.overall.spreadMs })];
}

function restrict({ notes, extras }: Judgement, keep: (due: TimedNote) => boolean): Judgement {
  return {
    notes: notes.filter(({ due }) => keep(due)),
    extras: extras.filter((extra) => {
      const near = notes[nearestNote(notes, extra)];
      return near !== undefined && keep(near.due);
    }),
  };
}

const slippedAt = ({ fromUs, toUs }: Slip, { timeUs }: TimedNote): boolean =>
  timeUs >= fromUs && timeUs <= toUs;

/** Usual time between successive strokes of the written phrase, ms. */
function intervalMs(dues: readonly TimedNote[]): number {
  const gaps = dues.slice(1).map((due, i) => due.timeUs - dues[i]!.timeUs);
  const apart = gaps.filter((gap) => gap > 0);
  return apart.length > 0 ? median(apart) / 1000 : 0;
}
