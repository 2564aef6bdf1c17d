import type { Finding } from '../../../coach/finding';
import type { FindingPlace } from '../../../coach/finding-place';
import type { LaneFeed } from '../../../live/lane-feed';
import type { TimedNote } from '../../../match/timed-note';
import { LIMBS } from '../../../phrase/model/limb';
import { VOICES } from '../../../phrase/model/voice';
import { firstAtOrAfter } from '../../../time/first-from';
import { stepFrom } from '../../lane/scroll-steps';

/** The finding whose notes stand in brackets on the lane. */
export interface FindingInLane {
  readonly finding: Finding;
  readonly place: FindingPlace;
  /** The beat of its first note there, integer microseconds. */
  readonly atUs: number;
  /** Its notes in the lane's columns. */
  readonly notes: ReadonlySet<number>;
}

/** A finding as a lane shows it that begins on a beat. */
export const findingInLane = (
  lane: LaneNotes & Pick<LaneFeed, 'marks'>,
  finding: Finding,
  place: FindingPlace,
): FindingInLane => ({
  finding,
  place,
  atUs: stepFrom(lane.marks, place.first.timeUs + 1, 'beat', -1),
  notes: new Set(laneNotes(lane, finding.notes)),
});

type LaneNotes = Pick<LaneFeed, 'noteCount' | 'noteTimeUs' | 'noteVoice' | 'noteLimb'>;

/**
 * Which of a lane's notes some notes are: those at the same time, of the same voice and limb. Notes that the lane does not have are
 * left out.
 */
export function laneNotes(
  feed: LaneNotes,
  dues: readonly Pick<TimedNote, 'timeUs' | 'note'>[],
): number[] {
  return dues.flatMap(({ timeUs, note }) => {
    const from = firstAtOrAfter(feed.noteTimeUs, feed.noteCount, timeUs);
    for (let i = from; i < feed.noteCount && feed.noteTimeUs[i] === timeUs; i++)
      if (VOICES[feed.noteVoice[i]!] === note.voice && LIMBS[feed.noteLimb[i]!] === note.limb)
        return [i];
    return [];
  });
}
