import { describe, expect, it } from 'vitest';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { followedLane } from '../../src/live/followed-lane';
import { LANE_VERDICTS, type LaneFeed } from '../../src/live/lane-feed';
import { openTake } from '../../src/live/open-take';
import { writePhrase } from '../../src/phrase/file/write-phrase';
import { simulate, type Faults } from '../../src/take/simulate';
import { harbourNotes, harbourPlan, HUMAN, PARTIAL_MS } from '../coach/practice-take';

const plan = harbourPlan();

const opened = (faults: Faults) =>
  openTake({
    phraseText: writePhrase(plan.phrase),
    passages: plan.passages,
    tempos: plan.tempo.changes,
    countInBars: 1,
    kit: GENERAL_MIDI,
    deviceOffsetMs: 0,
    toleranceMs: undefined,
    reachMs: undefined,
    messages: simulate(harbourNotes(12), faults, 3).messages,
  })!;

/** All that is drawn of it, as plain lists as long as they are filled. */
const columnsOf = (feed: LaneFeed) => {
  const notes = (column: ArrayLike<unknown>) => Array.from(column).slice(0, feed.noteCount);
  return {
    time: notes(feed.noteTimeUs),
    voice: notes(feed.noteVoice),
    level: notes(feed.noteLevel),
    limb: notes(feed.noteLimb),
    grace: notes(feed.noteGraceStep),
    main: notes(feed.noteMain),
    reach: notes(feed.noteReachUs),
    tolerance: notes(feed.noteToleranceUs),
    bar: notes(feed.noteBar),
    beat: notes(feed.noteBeatLabel),
    cycle: notes(feed.noteCycle),
    position: notes(feed.notePosition),
    verdict: notes(feed.noteVerdict),
    levelVerdict: notes(feed.noteLevelVerdict),
    stroke: notes(feed.noteStroke),
    answers: Array.from(feed.strokeNote).slice(0, feed.strokeCount),
  };
};

describe('a take in the lane where it was played', () => {
  it.each<Faults>([HUMAN, { ...HUMAN, missed: 0.1, extra: 0.1, wrongVoices: 0.1 }])(
    'lawFollowedInPlace: is the lane itself where the place was kept, %o',
    (faults) => {
      const { lane, judgement } = opened(faults);
      expect(columnsOf(followedLane(lane, judgement))).toEqual(columnsOf(lane));
    },
  );

  it.each([-1, 1, 2])('stands %d partials beside the click where it slipped', (partials) => {
    const slipMs = partials * PARTIAL_MS;
    const { lane, slips, followed } = opened({
      ...HUMAN,
      lostPlace: { afterCycles: 4, slipMs },
    });
    const [slip] = slips;
    const moved = followedLane(lane, followed!);
    const isNote = (feed: LaneFeed, us: number) =>
      feed.noteTimeUs.subarray(0, feed.noteCount).some((at) => Math.abs(at - us) < 2);
    const late = Array.from(moved.noteTimeUs).filter((us) => us > slip!.fromUs + 1e6);
    expect(late.length).toBeGreaterThan(50);
    for (const us of late.slice(0, -16)) expect(isNote(lane, us - 1000 * slipMs)).toBe(true);
    const inTime = (feed: LaneFeed) =>
      Array.from(feed.noteVerdict)
        .slice(0, feed.noteCount)
        .filter((code) => LANE_VERDICTS[code] === 'in time').length / feed.noteCount;
    expect(inTime(lane)).toBeLessThan(0.8);
    expect(inTime(moved)).toBeGreaterThan(0.95);
    // The click is where it was.
    expect(moved.marks).toBe(lane.marks);
  });
});
