import { describe, expect, it } from 'vitest';
import { GENERAL_MIDI } from '../../../src/kit/built-in-kits';
import { LiveTake } from '../../../src/live/live-take';
import { LiveTimeline } from '../../../src/live/live-timeline';
import { TakeJournalKeeper } from '../../../src/practice/takes/take-journal-keeper';
import { TakeRun } from '../../../src/practice/takes/take-run';
import { storeProblem, type StoreProblem } from '../../../src/store/store-problem';
import type { Take } from '../../../src/take/take';
import { beats } from '../../../src/time/beats';
import { bad, good, type Result } from '../../../src/time/result';
import { phraseOf } from '../../phrase/phrase-of';
import { handPage } from '../hand-page';

const settled = () => new Promise((resolve) => setTimeout(resolve));

/** A take under way whose journal answers as it is told, and the parts as the store would hold them. */
function underWay() {
  const hand = handPage();
  const parts = new Map<number, Take>();
  const told: (string | undefined)[] = [];
  let answer: Result<void, StoreProblem> | Promise<Result<void, StoreProblem>> = good(undefined);
  const journal = {
    begin: () => ({
      id: 'take',
      keep: async (part: number, take: Take) => {
        const now = await answer;
        if (now.ok) parts.set(part, take);
        return now;
      },
      end: async () => undefined,
      leave: () => undefined,
    }),
  };
  const phrase = phraseOf({ grouping: 'R L' });
  const run = new TakeRun(hand.dependencies, {
    take: new LiveTake(
      new LiveTimeline({
        phrase,
        passages: [{ fromBar: 1, layer: 1 }],
        tempos: [{ fromBeat: beats(0), bpm: 90 }],
        windows: {},
        countInBars: 1,
      }),
      GENERAL_MIDI,
    ),
    click: () => ({ follows: 'meter', beats: 'all' }),
    reference: () => 'off',
    onCycle: () => undefined,
  });
  run.start();
  const keeper = new TakeJournalKeeper(
    { journal, tell: (problem) => told.push(problem?.code) },
    () => ({ phraseText: '{}', startedAt: '2026-03-01T10:00:00.000Z' }),
  );
  let sent = 0;
  return {
    keeper,
    run,
    told,
    answers: (next: typeof answer) => void (answer = next),
    /** Velocities count the strokes. */
    async strike() {
      hand.passTo(hand.page.nowMs + 500);
      hand.send(hand.page.nowMs, 0x99, 38, ++sent);
      keeper.tick(run);
      await settled();
    },
    written: () =>
      [...parts]
        .sort(([a], [b]) => a - b)
        .flatMap(([, { messages }]) => messages.map(({ data2 }) => data2)),
  };
}

describe('the journal of a take whose writes fail', () => {
  it('has no hole: what failed is written again with what came since, and both are told once', async () => {
    const { strike, written, answers, told } = underWay();
    await strike();
    answers(bad(storeProblem('FULL')));
    await strike();
    await strike();
    expect(written()).toEqual([1]);
    expect(told).toEqual(['FULL']);
    answers(good(undefined));
    await strike();
    expect(written()).toEqual([1, 2, 3, 4]);
    expect(told).toEqual(['FULL', undefined]);
  });

  it('has nothing twice when the page is left while a write is under way', async () => {
    const { strike, written, answers, keeper, run } = underWay();
    await strike();
    let answerNow = undefined as unknown as (result: Result<void, StoreProblem>) => void;
    answers(new Promise((resolve) => (answerNow = resolve)));
    await strike();
    await strike();
    keeper.flush(run);
    answerNow(good(undefined));
    await settled();
    expect(written()).toEqual([1, 2, 3]);
    answers(good(undefined));
    await strike();
    expect(written()).toEqual([1, 2, 3, 4]);
  });
});
