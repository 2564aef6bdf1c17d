import { describe, expect, it } from 'vitest';
import { planWords } from '../../src/coach/tempo-plan';
import { returnWords } from '../../src/coach/return-words';
import { FIRST_CHOICES, type Choices } from '../../src/practice/choices';
import { openTake } from '../../src/live/open-take';
import { parseTake, writeTake } from '../../src/take/take-json';
import { clickReturns } from '../../src/coach/click-returns';
import { layerProgress, progressOf } from '../../src/take/progress';
import { phrase, playedSession } from './played-session';

const plan = (some: Partial<Choices['tempoPlan']>): Partial<Choices> => ({
  tempoPlan: { ...FIRST_CHOICES.tempoPlan, shape: 'list', list: [120, 126, 132], ...some },
});
/** At 120; later ones are shorter. */
const CYCLE_US = 2_000_000;

describe('a tempo plan while playing', () => {
  const reason = ({ session }: ReturnType<typeof playedSession>) =>
    session.plan && planWords(session.plan.plan, session.plan.state);

  it('goes on with every pass, from the next cycle, and what was held is kept', async () => {
    const rig = playedSession();
    const { session, summaries, playTo, start } = rig;
    session.choose(plan({}));
    await start();
    expect(reason(rig)).toBe('Plan: 120, to 132 in 2 steps.');
    playTo(7 * CYCLE_US + 300_000);
    expect(reason(rig)).toBe('On to 126: passed at 120.');
    expect(session.choices.tempoBpm).toBe(126);
    expect(session.upcoming).toMatchObject([{ bpm: 126, bar: 9 }]);
    playTo(30 * CYCLE_US);
    expect(reason(rig)).toBe('Goal reached: passed at 132.');
    expect(session.choices.tempoBpm).toBe(132);
    await session.stop();
    expect(session.plan).toBeUndefined();
    expect(summaries[0]!.trials!.map(({ bpm, passed }) => [bpm, passed])).toEqual([
      [120, true],
      [126, true],
      [132, true],
    ]);
    expect(layerProgress(progressOf(summaries), phrase)[0]!.bestBpm).toBe(132);
  });

  it('goes back when two of the cycles do not pass, and on again', async () => {
    const rig = playedSession();
    const { session, playTo, start } = rig;
    session.choose({ ...plan({ backAfter: 1 }), tempoBpm: 126 });
    await start();
    // At 126 a bar is 1.905 s. Half of the notes of every cycle are left out.
    playTo(2 * 1_905_000 + 300_000, (_, position) => position % 2 === 0);
    expect(reason(rig)).toBe('Back to 120: none of two cycles passed.');
    expect(session.choices.tempoBpm).toBe(120);
    playTo(14 * CYCLE_US);
    expect(reason(rig)).toBe('On to 126: passed at 120.');
    await session.stop();
  });

  it('begins at its start where the tempo is none of its own, and waits for one that is chosen by hand', async () => {
    const { session, playTo, start } = playedSession();
    session.choose({ ...plan({}), tempoBpm: 99 });
    await start();
    expect(session.choices.tempoBpm).toBe(120);
    playTo(CYCLE_US);
    session.choose({ tempoBpm: 99 });
    expect(session.plan).toBeUndefined();
    session.choose({ tempoBpm: 132 });
    expect(session.plan?.state.step).toBe(2);
    await session.stop();
  });

  it('leads to the next layer only from its goal, and begins again there', async () => {
    const { session, playTo, start } = playedSession();
    session.choose({ ...plan({ list: [120, 126] }), moveOn: true });
    await start();
    playTo(9 * CYCLE_US);
    expect(session.choices).toMatchObject({ layer: 1, tempoBpm: 126 });
    playTo(19 * CYCLE_US);
    expect(session.choices).toMatchObject({ layer: 2, tempoBpm: 120 });
    expect(session.plan?.state).toMatchObject({ step: 0, reason: { kind: 'begins' } });
    await session.stop();
  });

  it('is not there where none is chosen', async () => {
    const { session, start } = playedSession();
    await start();
    expect(session.plan).toBeUndefined();
    await session.stop();
  });
});

describe('silent bars while playing', () => {
  const silentBars = { isOn: true, sounding: 2, silent: 1, growBy: 0, most: 1 };
  /** The bars with a click, of those that were queued. */
  const clickedBars = ({ hand, session }: ReturnType<typeof playedSession>) => {
    const originMs = hand.page.nowMs - session.nowUs() / 1000;
    const bars = hand.output.sounds
      .filter(({ cancelled, event }) => !cancelled && event.kind === 'click')
      .map(({ atSeconds }) => Math.floor((atSeconds * 1e6 - originMs * 1000 + 500) / CYCLE_US) + 1);
    return [...new Set(bars)];
  };

  it('have no click, tell the error at its return, and are kept with the take', async () => {
    const rig = playedSession();
    const { session, takes, playTo, start } = rig;
    session.choose({ silentBars });
    await start();
    // 20 ms later wherever there is no click.
    playTo(6 * CYCLE_US + 400_000, undefined, (cycle) => (cycle % 3 === 0 ? 20 : 0));
    expect(clickedBars(rig)).toEqual([0, 1, 2, 4, 5, 7]);
    // Four eighths of the last beat and the return: 20, 20 and 0 ms.
    const live = session.stats!.returns;
    expect(live.map(({ fromBar, toBar, beats }) => [fromBar, toBar, beats])).toEqual([[3, 3, 4]]);
    expect(live[0]!.errorMs).toBeCloseTo(40 / 3, 1);
    expect(returnWords(live[0]!)).toMatch(/^Click back at bar 4: 13 ms late; /);
    await session.stop();
    const again = parseTake(writeTake(takes[0]!));
    if (!again.ok) throw new Error(again.errors[0]!.message);
    const rule = { sounding: 2, silent: 1, growBy: 0, most: 1, anewAtTempo: true };
    expect(again.value.silentBars).toEqual(rule);
    const opened = openTake(again.value)!;
    const whole = clickReturns(opened.plan, opened.judgement.notes);
    expect(whole.map(({ errorMs }) => errorMs)).toEqual([live[0]!.errorMs, expect.any(Number)]);
    expect(opened.lane.timeline.marks.find(({ bar }) => bar === 3)?.isSilent).toBe(true);
  });

  it('are none in a take without them', async () => {
    const rig = playedSession();
    await rig.start();
    rig.playTo(4 * CYCLE_US);
    expect(clickedBars(rig)).toEqual([0, 1, 2, 3, 4, 5]);
    await rig.session.stop();
    expect(rig.takes[0]!.silentBars).toBeUndefined();
  });

  it('come and go beside a tempo plan, and the new tempo is heard before they do', async () => {
    const rig = playedSession();
    const { session, takes, playTo, start } = rig;
    const isSilentAt = (bar: number) =>
      session.lane!.marks.find((mark) => mark.bar === bar)!.isSilent;
    session.choose({ silentBars: { ...silentBars, silent: 2, most: 2 }, ...plan({}) });
    await start();
    // Two bars of every four count: the eighth of them, with which 62 notes with one fault are through, is bar 14.
    playTo(13 * CYCLE_US + 300_000, (cycle, position) => cycle === 1 && position === 2);
    expect(session.plan!.state.step).toBe(0);
    playTo(15 * CYCLE_US);
    expect(planWords(session.plan!.plan, session.plan!.state)).toBe('On to 126: passed at 120.');
    // Told in bar 15, which is silent as bar 16 is: the tempo waits for the click, which sounds for its two bars.
    expect(session.upcoming).toMatchObject([{ bpm: 126, bar: 17 }]);
    expect([15, 16, 17, 18, 19].map(isSilentAt)).toEqual([true, true, false, false, true]);
    playTo(22 * CYCLE_US);
    const live = session.stats!.returns;
    expect(live.map(({ fromBar, toBar }) => [fromBar, toBar])).toEqual([
      [3, 4],
      [7, 8],
      [11, 12],
      [15, 16],
      [19, 20],
    ]);
    await session.stop();
    const opened = openTake(takes[0]!)!;
    expect(clickReturns(opened.plan, opened.judgement.notes).slice(0, 5)).toEqual(live);
  });

  it('take a step of the plan that falls beside them at once', async () => {
    const rig = playedSession();
    const { session, playTo, start } = rig;
    session.choose({ silentBars: { ...silentBars, sounding: 8 }, ...plan({}) });
    await start();
    playTo(7 * CYCLE_US + 300_000);
    // Bar 9 would be silent.
    expect(session.upcoming).toMatchObject([{ bpm: 126, bar: 9 }]);
    const silent = session.lane!.marks.filter(({ isSilent }) => isSilent);
    expect(silent.every(({ bar }) => bar > 16)).toBe(true);
    await session.stop();
  });

  it('are no reason for a plan to go back', async () => {
    const rig = playedSession();
    const { session, playTo, start } = rig;
    session.choose({
      silentBars: { ...silentBars, sounding: 1, silent: 1 },
      ...plan({ backAfter: 1 }),
      tempoBpm: 126,
    });
    await start();
    // Nothing is played wherever there is no click.
    playTo(12 * 1_905_000, (cycle) => cycle % 2 === 0);
    expect(session.plan!.state).toMatchObject({ step: 1, fails: 0 });
    playTo(20 * 1_905_000, (cycle) => cycle % 2 === 0);
    expect(session.plan!.state.step).toBe(2);
    await session.stop();
  });
});

describe('a spoken count while playing', () => {
  const spoken = ({ hand, session }: ReturnType<typeof playedSession>, toUs: number) => {
    const originMs = hand.page.nowMs - session.nowUs() / 1000;
    return hand.output.sounds
      .filter(({ cancelled, event }) => !cancelled && event.kind === 'count')
      .map(({ event, atSeconds }) => ({
        word: event.kind === 'count' ? event.word : '',
        us: Math.round(atSeconds * 1e6 - originMs * 1000),
      }))
      .filter(({ us }) => us < toUs);
  };
  const count = { ...FIRST_CHOICES.count, follows: 'meter' as const };

  it('counts the beats of the bar on the click, the count-in too', async () => {
    const rig = playedSession();
    rig.session.choose({ count });
    await rig.start();
    rig.playTo(CYCLE_US);
    expect(spoken(rig, CYCLE_US - 1000)).toEqual(
      ['1', '2', '3', '4', '1', '2', '3', '4'].map((word, i) => ({ word, us: (i - 4) * 500_000 })),
    );
    await rig.session.stop();
  });

  it('is switched on and off in mid-take', async () => {
    const rig = playedSession();
    await rig.start();
    rig.playTo(CYCLE_US);
    expect(spoken(rig, Infinity)).toEqual([]);
    rig.session.choose({ count });
    rig.playTo(1.5 * CYCLE_US);
    expect(spoken(rig, Infinity).length).toBeGreaterThan(0);
    rig.session.choose({ count: { ...count, follows: 'off' } });
    const left = spoken(rig, Infinity).map(({ us }) => us);
    expect(Math.max(...left)).toBeLessThanOrEqual(1.5 * CYCLE_US + 20_000);
    await rig.session.stop();
  });

  it('counts the cycle from one on: eighths at 120 one by one', async () => {
    const rig = playedSession();
    rig.session.choose({ count: { ...count, follows: 'cycle' } });
    await rig.start();
    rig.playTo(CYCLE_US);
    const words = spoken(rig, CYCLE_US - 1000).filter(({ us }) => us >= -1000);
    expect(words.map(({ word }) => word)).toEqual(['1', '2', '3', '4', '5', '6', '7', '8']);
    await rig.session.stop();
  });
});
