import { expect, it } from 'vitest';
import { earlierTake } from '../../src/coach/comparison/earlier-take';
import { findings } from '../../src/coach/findings';
import { boundariesOf } from '../../src/kit/boundaries-of';
import { openTake } from '../../src/live/open-take';
import { comparisonsOfTake } from '../../src/practice/takes/comparisons-of-take';
import { good } from '../../src/time/result';
import { playedSession } from './played-session';

const CYCLES = 16;

it('another tempo than the click’s: once that was practised the next take says what changed', async () => {
  const { session, takes, summaries, playTo, start } = playedSession();
  const played = async (bpm: number, quicker: number) => {
    const cycleMs = (8 * 30_000) / bpm;
    session.choose({ tempoBpm: bpm });
    await start();
    playTo(CYCLES * cycleMs * 1000, undefined, (cycle) => -quicker * cycleMs * (cycle - 1));
    await session.stop();
  };
  await played(120, 0.03);
  const [first] = takes;
  const { plan, judgement } = openTake(first!)!;
  const [told] = findings(plan, judgement, (pad) => boundariesOf(first!.kit, pad));
  expect(told).toMatchObject({ code: 'other tempo', drill: { kind: 'other tempo', bpm: 124 } });
  await played(124, 0);
  expect(earlierTake(summaries, '2')).toBeUndefined();
  await played(120, 0);
  const since = await comparisonsOfTake('3', earlierTake(summaries, '3')!, (id) =>
    Promise.resolve(good(takes[Number(id) - 1]!)),
  );
  expect(since.map(({ text }) => text)).toEqual([
    "You play at the click's tempo, was 4 bpm quicker.",
  ]);
});
