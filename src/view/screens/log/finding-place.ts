import type { Finding } from '../../../coach/finding';
import type { FindingCode } from '../../../coach/wording';
import type { LaneFeed } from '../../../live/lane-feed';
import type { OpenedTake } from '../../../live/open-take';
import type { TimedNote } from '../../../match/timed-note';
import type { AuditionPhrase } from '../../../practice/audition.svelte';
import { LIMBS } from '../../../phrase/model/limb';
import { VOICES } from '../../../phrase/model/voice';
import { isAsWritten } from '../../../score/figures';
import type { JudgedNote } from '../../../score/judged-note';
import { firstAtOrAfter } from '../../../time/first-from';
import { stepFrom } from '../../lane/scroll-steps';

/** Where in a take a finding is seen and heard. */
export interface FindingPlace {
  /** 1-based; 0 for the pickup. */
  readonly bar: number;
  /** The beat of its first note there, integer microseconds. */
  readonly atUs: number;
  /** Its notes in the lane's columns. */
  readonly notes: ReadonlySet<number>;
  /** The layer from that bar on, at the tempo played to there and with the click; and slower. */
  readonly asWritten: WrittenPassage;
  readonly slower: WrittenPassage;
}

export type WrittenPassage = AuditionPhrase & Required<Pick<AuditionPhrase, 'layer' | 'bpm'>>;

/** Of the tempo that was played to. Chosen, not measured. */
const SLOWER = 3 / 4;

/** Told of where strokes fall: seen best where they fall farthest off. */
const OF_TIME: ReadonlySet<FindingCode> = new Set([
  'other tempo',
  'drift',
  'silent bars',
  'all strokes off',
  'swing',
  'partial off',
  'limb off',
  'voice off',
  'level off',
  'layer off',
  'position off',
  'transition off',
  'unison off',
  'spread apart',
  'spread grows',
  'spread',
]);

/**
 * Where a finding shows: of time, the cycle in which its notes are farthest off, all together; else the first of its notes that is
 * not as written. Undefined for a finding that is about no notes.
 */
export function findingPlace(
  { plan, judgement, lane }: OpenedTake,
  { code, notes }: Pick<Finding, 'code' | 'notes'>,
): FindingPlace | undefined {
  const about = new Set(notes);
  const judged = judgement.notes.filter(({ due }) => about.has(due));
  const first = OF_TIME.has(code) ? farthestOff(judged) : judged.find((one) => !isAsWritten(one));
  const due = (first ?? judged[0])?.due;
  if (!due) return undefined;
  const { bar, onset } = due.note;
  const fromBar = bar - plan.passages[due.passage]!.fromBar + 1;
  const asWritten: WrittenPassage = {
    phrase: plan.phrase,
    layer: due.layer,
    bpm: plan.tempo.bpmAt(onset),
    click: true,
    ...(fromBar < 1 ? {} : { fromBar }),
  };
  return {
    bar,
    atUs: stepFrom(lane.marks, due.timeUs + 1, 'beat', -1),
    notes: new Set(laneNotes(lane, notes)),
    asWritten,
    slower: { ...asWritten, bpm: SLOWER * asWritten.bpm },
  };
}

/** The first note of the cycle whose offsets add up to most, either way. */
function farthestOff(notes: readonly JudgedNote[]): JudgedNote | undefined {
  const cycles = new Map<string, { first: JudgedNote; us: number }>();
  for (const note of notes) {
    const { passage, note: written } = note.due;
    const key = `${passage}:${written.cycle}`;
    const us = Math.abs(note.offsetUs ?? 0);
    const cycle = cycles.get(key);
    if (cycle) cycle.us += us;
    else cycles.set(key, { first: note, us });
  }
  return [...cycles.values()].sort((a, b) => b.us - a.us)[0]?.first;
}

/**
 * Which of a lane's notes some notes are: those at the same time, of the same voice and limb. Notes that the lane does not have are
 * left out.
 */
export function laneNotes(
  feed: Pick<LaneFeed, 'noteCount' | 'noteTimeUs' | 'noteVoice' | 'noteLimb'>,
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
