import { describe, expect, it } from 'vitest';
import type { Player } from '../../src/take/player';
import { layerProgress, progressOf } from '../../src/take/progress';
import { parseTake, writeTake } from '../../src/take/take-json';
import { layeredPhrase } from '../phrase/phrase-of';
import { playerRig } from './player-rig';

const phrase = layeredPhrase(
  { title: 'Tow Line', meter: '4/4', tempoBpm: 120, subdivision: 2, grouping: 'R L R L R L R K' },
  [{ where: { positions: [1] }, set: { level: 'accent' } }],
  [{ pickup: [{ partialsBefore: 1, limb: 'L' }] }],
);
const rig = (player?: Player) => playerRig(phrase, player);

/** A cycle is a bar of eight eighths at 120: 2 s; 55 notes without a fault are through within seven. */
const CYCLE_US = 2_000_000;
const SEVEN_US = 7 * CYCLE_US + 500_000;

describe('a layer that is passed', () => {
  it('is told once, with its tempo, and stays passed in the log', async () => {
    const { session, summaries, playTo, start } = rig();
    await start();
    playTo(6 * CYCLE_US + 500_000);
    expect(session.justPassed).toBeUndefined();
    expect(session.stats?.gate).toMatchObject({ passed: false, bound: 'all notes' });
    playTo(SEVEN_US);
    expect(session.justPassed).toBe(1);
    expect(session.passed).toEqual([{ layer: 1, bpm: 120 }]);
    session.choose({ layer: 2 });
    expect(session.justPassed).toBeUndefined();
    await session.stop();
    expect(summaries[0]!.trials).toMatchObject([{ layer: 1, bpm: 120, passed: true }]);
    // The log takes over, where a pass can be taken back.
    expect(session.passed).toEqual([]);
    const progress = layerProgress(progressOf(summaries), phrase);
    expect(progress.map(({ bestBpm }) => bestBpm)).toEqual([120, undefined, undefined]);
  });

  it.each<Player>(['simulated player', 'file'])(
    'passes nothing when the %s played',
    async (player) => {
      const { session, takes, summaries, playTo, start } = rig(player);
      await start();
      playTo(SEVEN_US);
      expect(session.stats?.gate.passed).toBe(true);
      expect([session.justPassed, session.passed.length]).toEqual([undefined, 0]);
      await session.stop();
      expect(takes[0]!.player).toBe(player);
      expect(summaries[0]).toMatchObject({ player, passed: false, trials: [{ passed: false }] });
      expect(progressOf(summaries).size).toBe(0);
    },
  );

  it('leads through the layers by itself, and all of them are kept', async () => {
    const { session, takes, summaries, playTo, start } = rig();
    session.choose({ moveOn: true });
    await start();
    playTo(40 * CYCLE_US);
    expect([...new Set(session.passed.map(({ layer }) => layer))]).toEqual([1, 2, 3]);
    await session.stop();
    expect(summaries[0]!.trials!.map(({ layer, passed }) => [layer, passed])).toEqual([
      [1, true],
      [2, true],
      [3, true],
    ]);
    const again = parseTake(writeTake(takes[0]!));
    expect(again.ok && again.value).toEqual(takes[0]);
  });

  it('does not pass while its own note is wrong, however right the others are', async () => {
    const { session, playTo, start } = rig();
    session.choose({ layer: 2 });
    await start();
    playTo(20 * CYCLE_US, (_, position) => position === 1);
    expect(session.stats?.gate).toMatchObject({
      passed: false,
      ownLack: { notes: { right: 0, of: 8 }, positions: [1] },
    });
  });
});

describe('a trial', () => {
  it('begins when the player asks: what went wrong before does not count', async () => {
    const { session, playTo, start } = rig();
    await start();
    playTo(4 * CYCLE_US, (cycle) => cycle < 4);
    session.tryAgain();
    playTo(4 * CYCLE_US + SEVEN_US);
    expect(session.justPassed).toBe(1);
    await session.stop();
  });

  it('leaves out the bar in which a stick fell', async () => {
    const { session, takes, playTo, start } = rig();
    await start();
    playTo(2 * CYCLE_US - 100_000, (cycle) => cycle === 2);
    session.leaveOutBar();
    playTo(CYCLE_US + SEVEN_US);
    expect(session.justPassed).toBe(1);
    await session.stop();
    expect(takes[0]!.trials).toMatchObject({ leftOutBars: [2] });
  });

  it('whose pass was given by mistake is taken back, here and in the log', async () => {
    const { session, summaries, playTo, start } = rig();
    await start();
    playTo(SEVEN_US);
    session.takeBack();
    expect([session.justPassed, session.passed.length]).toEqual([undefined, 0]);
    await session.stop();
    expect(summaries[0]!.trials!.some(({ passed }) => passed)).toBe(false);
  });

  it('that lacks only its pickup goes on with the next start', async () => {
    const { session, takes, playTo, start } = rig();
    session.choose({ layer: 3 });
    await session.start();
    // The stroke that was missed costs six right ones.
    playTo(CYCLE_US + SEVEN_US, (cycle) => cycle === 0);
    expect(session.stats?.gate).toMatchObject({
      bound: 'own notes',
      ownLack: { pickup: { right: 0, of: 1 } },
    });
    await session.stop();
    await start();
    playTo(CYCLE_US + 500_000);
    expect(session.justPassed).toBe(3);
    await session.stop();
    expect(takes[1]!.trials).toMatchObject({ continues: true });
  });

  it('does not go on with what the simulated player played', async () => {
    const { session, inputs, takes, playTo, start } = rig('simulated player');
    session.choose({ layer: 3 });
    await start();
    playTo(CYCLE_US + SEVEN_US, (cycle) => cycle === 0);
    await session.stop();
    expect(session.stats?.gate.bound).toBe('own notes');
    inputs.player = 'kit';
    await start();
    playTo(CYCLE_US + 500_000);
    expect(session.justPassed).toBeUndefined();
    await session.stop();
    expect(takes[1]!.trials?.continues).toBeUndefined();
  });

  it.each<[Player, Player, Player]>([
    ['kit', 'simulated player', 'simulated player'],
    ['simulated player', 'kit', 'simulated player'],
    ['kit', 'keyboard and pads', 'kit'],
  ])('of the %s, the %s in mid-take, is played by the %s', async (first, then, by) => {
    const { session, inputs, takes, playTo, start } = rig(first);
    await start();
    playTo(CYCLE_US);
    inputs.player = then;
    playTo(2 * CYCLE_US);
    inputs.player = first;
    playTo(SEVEN_US);
    expect(session.passed.length > 0).toBe(by === 'kit');
    await session.stop();
    expect(takes[0]!.player).toBe(by);
  });
});
