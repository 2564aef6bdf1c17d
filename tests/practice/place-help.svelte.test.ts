import { describe, expect, it } from 'vitest';
import { openTake } from '../../src/live/open-take';
import { parseTake, writeTake } from '../../src/take/take-json';
import { moveSentences } from '../../src/view/screens/practise/words/move-sentences';
import { upcomingWords } from '../../src/view/screens/practise/words/upcoming-words';
import { playedSession } from './played-session';

/** A bar of eight eighths at 120; a partial is 250 ms. */
const BAR_US = 2_000_000;
const PARTIAL_MS = 250;

/** Somebody who plays in time for so many bars and one eighth late from then on, until it is told. */
async function slippedSession(bars = 3, partials = 1) {
  const rig = playedSession();
  await rig.start();
  const slipped = (cycle: number) => (cycle > bars ? partials * PARTIAL_MS : 0);
  let us = bars * BAR_US;
  rig.playTo(us, undefined, slipped);
  while (rig.session.placeHelp?.sentence === undefined && us < 20 * BAR_US)
    rig.playTo((us += 100_000), undefined, slipped);
  return { ...rig, slipped, us };
}

describe('a lost place while playing', () => {
  it('is said as soon as it is certain, and not before, with what can be done', async () => {
    const { session, us } = await slippedSession();
    expect(session.placeHelp?.sentence).toBe('Slipped one eighth late since bar 4.');
    expect(session.placeHelp?.isOffered).toBe(true);
    // Cycle figures would tell it only after a whole cycle, and a hit window.
    expect(us).toBeLessThan(7 * BAR_US);
    await session.stop();
    expect(session.placeHelp).toBeUndefined();
  });

  it('is said no longer once the player is back', async () => {
    const { session, playTo, us } = await slippedSession();
    playTo(us + 4 * BAR_US);
    expect(session.placeHelp?.sentence).toBeUndefined();
    expect(session.placeHelp?.isOffered).toBe(false);
    await session.stop();
  });

  it('is where the target goes on, once it waits, and the kept take says the same', async () => {
    const { session, playTo, takes, us } = await slippedSession();
    session.placeHelp!.waitForMe();
    expect(session.placeHelp!.isOffered).toBe(false);
    const [wait] = session.upcoming;
    expect(upcomingWords(session.upcoming)).toMatch(/^waits for you from bar \d+ beat 1 1\/2$/);
    expect(moveSentences(session.upcoming)[0]).toMatch(
      /^From bar \d+ beat 1 1\/2 the phrase waits for you, one eighth later\.$/,
    );
    // Who plays what is due then plays as before.
    playTo(us + 6 * BAR_US, undefined, () => 0);
    expect(wait!.atUs - us).toBeGreaterThanOrEqual(1_200_000);
    expect(session.placeHelp?.sentence).toBeUndefined();
    expect(session.upcoming).toEqual([]);
    await session.stop();
    expect(takes[0]!.passages).toHaveLength(2);
    const again = parseTake(writeTake(takes[0]!));
    if (!again.ok) throw new Error(again.errors[0]!.message);
    expect(again.value.passages).toEqual(takes[0]!.passages);
    const { judgement, slips } = openTake(again.value)!;
    expect(slips).toMatchObject([{ partials: 1, passage: 0, toUs: wait!.atUs }]);
    const after = judgement.notes.filter(({ due }) => due.passage === 1);
    expect(after.length).toBeGreaterThan(20);
    expect(new Set(after.map(({ verdict }) => verdict))).toEqual(new Set(['in time']));
  });

  it('is left for a count-in over the click, and the phrase from its beginning', async () => {
    const { session, hand, playTo, takes, us } = await slippedSession();
    session.choose({ click: { follows: 'meter', beats: 'none' } });
    session.placeHelp!.bringMeBack();
    const { bar, atUs } = session.upcoming[0] as { bar: number; atUs: number };
    expect(upcomingWords(session.upcoming)).toBe(`counts in at bar ${bar}`);
    expect(moveSentences(session.upcoming)).toEqual([
      `A count-in at bar ${bar}, then the phrase from its beginning at bar ${bar + 1}.`,
    ]);
    const originMs = hand.page.nowMs - session.nowUs() / 1000;
    playTo(atUs - 500_000, () => true);
    expect(session.placeHelp?.sentence).toBeDefined();
    expect(session.status).toBe('playing');
    // Nothing is due there, and nothing is wrong any more.
    playTo(atUs + 200_000, () => true);
    expect(session.placeHelp?.sentence).toBeUndefined();
    expect(session.status).toBe('counting in');
    playTo(atUs + BAR_US - 200_000, () => true);
    expect(session.status).toBe('counting in');
    playTo(atUs + 5 * BAR_US);
    expect(session.status).toBe('playing');
    const clickUs = hand.output.sounds
      .filter(({ cancelled, event }) => !cancelled && event.kind === 'click')
      .map(({ atSeconds }) => Math.round((atSeconds * 1000 - originMs) * 1000))
      .filter((at) => at > us + 200_000);
    expect(clickUs).toEqual([0, 1, 2, 3].map((beat) => atUs + beat * 500_000));
    expect(session.placeHelp?.sentence).toBeUndefined();
    await session.stop();
    expect(takes[0]!.passages.at(-1)).toEqual({ fromBar: bar + 1, layer: 1, countInBars: 1 });
    const { judgement, slips } = openTake(takes[0]!)!;
    expect(slips).toMatchObject([{ passage: 0, toUs: atUs }]);
    const after = judgement.notes.filter(({ due }) => due.passage === 1);
    expect(after.length).toBeGreaterThan(20);
    expect(new Set(after.map(({ verdict }) => verdict))).toEqual(new Set(['in time']));
  });

  it('can be answered once, and only while it is lost', async () => {
    const { session, playTo, start } = playedSession();
    await start();
    playTo(3 * BAR_US);
    session.placeHelp!.waitForMe();
    session.placeHelp!.bringMeBack();
    expect(session.upcoming).toEqual([]);
    await session.stop();
    const lost = await slippedSession();
    lost.session.placeHelp!.waitForMe();
    lost.session.placeHelp!.bringMeBack();
    expect(lost.session.upcoming).toHaveLength(1);
    await lost.session.stop();
  });

  it('is not said again in the coach’s line, but when it is over, and a new trial begins', async () => {
    const { session, playTo, us } = await slippedSession();
    playTo(us + BAR_US, undefined, () => PARTIAL_MS);
    expect(session.stats).toMatchObject({ code: 'lost place', isLost: true, finding: '' });
    const before = session.stats!.gate.notes;
    session.placeHelp!.waitForMe();
    playTo(us + 5 * BAR_US);
    expect(session.stats).toMatchObject({ isLost: false });
    expect(session.stats!.finding).not.toMatch(/Slipped/);
    expect(session.stats!.gate.notes).toBeLessThan(before);
    expect(session.stats!.gate.asWritten).toBe(1);
    await session.stop();
  });

  it('takes a layer that was chosen along', async () => {
    const { session } = await slippedSession();
    session.choose({ layer: 2 });
    session.placeHelp!.waitForMe();
    expect(session.upcoming.map((one) => ('layer' in one ? one.layer : 'waits'))).toEqual([
      'waits',
      2,
    ]);
    await session.stop();
  });
});
