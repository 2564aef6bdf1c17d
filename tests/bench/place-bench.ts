import { equal } from 'node:assert/strict';
import { PlaceFollower } from '../../src/coach/place/place-follower';
import { voiceNumber } from '../../src/phrase/model/voice';
import { chance } from '../../src/time/chance';
import { libraryCases, planOf, played, STEADY } from '../claims/place-claims';
import { duration, p50, type BenchRow } from './bench-row';

const AIM_MS = 0.005;
const RUNS = 15;
const SLIP = { from: 80, partials: 1 };

/** The place in the phrase: the slowest layer of the library, by the median of its runs. */
export function placeRow(): BenchRow {
  const cases = libraryCases().map((one) => {
    const strokes = played(one, 180, STEADY, chance(7), SLIP);
    const lastUs = strokes.at(-1)!.timeUs;
    const plan = planOf(one);
    const run = () => {
      const follower = new PlaceFollower(plan);
      follower.extendTo(plan, lastUs);
      const from = performance.now();
      for (const { timeUs, voice, velocity } of strokes)
        follower.strike(timeUs, voiceNumber(voice), velocity >= 95, velocity <= 50, true);
      return { ms: (performance.now() - from) / strokes.length, follower };
    };
    for (const { partials } of run().follower.slips)
      equal((((partials - SLIP.partials) % one.round) + one.round) % one.round, 0);
    return { one, run };
  });
  const took = cases.map(({ one, run }) => ({
    one,
    ms: p50(Array.from({ length: RUNS }, () => run().ms)),
  }));
  const slowest = took.reduce((a, b) => (b.ms > a.ms ? b : a));
  return {
    name: 'place in the phrase, a stroke',
    asserted: 'no other slip than the one that was played',
    p50: duration(p50(took.map(({ ms }) => ms))),
    tail: `slowest ${duration(slowest.ms)}, ${slowest.one.phrase.title}`,
    aim: `each < ${duration(AIM_MS)}`,
    met: slowest.ms < AIM_MS,
    note: `Each layer of the library's phrases by the median of ${RUNS} runs of a player who slips by one partial: a longest pattern of ${Math.max(...took.map(({ one }) => one.round))} partials.`,
  };
}
