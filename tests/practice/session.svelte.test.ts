import { describe, expect, it } from 'vitest';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { checkPhrase } from '../../src/phrase/file/parse-phrase';
import { ChoicesShape, FIRST_CHOICES } from '../../src/practice/choices';
import { PracticeSession } from '../../src/practice/session.svelte';
import type { TakeRun } from '../../src/practice/take-run';
import type { AudioEngine } from '../../src/sound/audio-engine';
import { SettingsStore } from '../../src/store/settings-store';
import { exactMap, FakeOutput } from '../sound/fake-output';

const FILE = {
  title: 'Tow Line',
  meter: '2/4',
  tempoBpm: 120,
  subdivision: 2,
  grouping: 'R L K',
  layers: [{ name: 'Sticking' }],
};
const checked = checkPhrase(FILE);
if (!checked.ok) throw new Error(checked.errors[0]!.message);
const entry = { id: 'tow-line', text: JSON.stringify(FILE), phrase: checked.value };

function rig() {
  const clock = { nowMs: 10_000 };
  let run: TakeRun | undefined;
  const settings = new SettingsStore(undefined);
  const output = new FakeOutput();
  output.currentSeconds = clock.nowMs / 1000;
  const engine = Object.assign(output, {
    setVolume: () => undefined,
    onState: () => () => undefined,
    start: async () => undefined,
    observe: () => undefined,
    prepare: () => undefined,
  });
  const parts = {
    engine: engine as unknown as AudioEngine,
    takes: { add: async () => ({ summary: {} as never }) },
    journal: {
      begin: () => ({
        id: 'a',
        keep: async () => ({ ok: true, value: undefined }),
        end: async () => undefined,
      }),
    },
    settings,
    clockMap: exactMap(0),
    kit: () => GENERAL_MIDI,
    nowMs: () => clock.nowMs,
    onRun: (one: TakeRun | undefined) => (run = one),
  };
  const session = new PracticeSession(parts as never);
  session.choosePhrase(entry as never);
  const strike = (us: number) => {
    clock.nowMs = run!.originMs + us / 1000;
    session.receive(clock.nowMs, 0x99, 38, 90);
  };
  return {
    session,
    settings,
    output,
    strike,
    passTo: (us: number) => (clock.nowMs = run!.originMs + us / 1000),
  };
}

describe('where the lane stands', () => {
  it('rests at the last stroke after a take, and at bar 1 for the next phrase or layer', async () => {
    const { session, strike, passTo } = rig();
    expect(session.nowUs()).toBe(0);
    await session.start();
    strike(4_000);
    strike(3_251_000);
    passTo(9_000_000);
    expect(session.nowUs()).toBe(9_000_000);
    await session.stop();
    expect(session.status).toBe('idle');
    expect(session.nowUs()).toBe(3_251_000);
    session.setTempo(90);
    expect(session.nowUs()).toBe(0);
  });

  it('goes back to bar 1 when nothing was struck', async () => {
    const { session, passTo } = rig();
    await session.start();
    passTo(2_000_000);
    await session.stop();
    expect(session.nowUs()).toBe(0);
    await session.start();
    passTo(-500_000);
    await session.stop();
    expect(session.nowUs()).toBe(0);
  });
});

describe('the start of a take', () => {
  it('has its first clicks queued before anything else gets a turn', async () => {
    const { session, output } = rig();
    session.setTempo(120);
    await session.start();
    // One bar of 2/4 at 120 as count-in; 900 ms of the lead are left after the 600 ms before it.
    expect(output.heardUs.slice(0, 2)).toEqual([-1_000_000, -500_000]);
    await session.stop();
  });
});

describe('the still page', () => {
  it('is kept with the other choices', () => {
    const { session, settings } = rig();
    expect(session.stillPage).toBe(false);
    session.setStillPage(true);
    expect(settings.read('practice', ChoicesShape, FIRST_CHOICES).stillPage).toBe(true);
  });

  it('leaves choices from before there was one as they are', () => {
    const older: Partial<typeof FIRST_CHOICES> = { ...FIRST_CHOICES, tempoBpm: 72 };
    delete older.stillPage;
    const settings = new SettingsStore(undefined);
    settings.write('practice', older);
    const read = settings.read('practice', ChoicesShape, FIRST_CHOICES);
    expect([read.tempoBpm, read.stillPage]).toEqual([72, false]);
  });
});
