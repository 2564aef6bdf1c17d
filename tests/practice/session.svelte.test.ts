import { describe, expect, it, vi } from 'vitest';
import { MIDI_STATES } from '../../src/midi/midi-problems';
import type { WebMidiState } from '../../src/midi/web-midi-source';
import { LiveTimeline } from '../../src/live/live-timeline';
import { checkPhrase } from '../../src/phrase/file/parse-phrase';
import { ChoicesShape, FIRST_CHOICES } from '../../src/practice/choices';
import { WRONG_PASS } from '../../src/score/gate-options';
import type { SessionDependencies } from '../../src/practice/session-dependencies';
import { loadTakeTools } from '../../src/practice/takes/load-take-tools';
import { NOT_JUDGED } from '../../src/practice/takes/take-scoring';
import { PracticeSession } from '../../src/practice/session.svelte';
import { SettingsStore } from '../../src/store/settings-store';
import type { Take } from '../../src/take/take';
import { good } from '../../src/time/result';
import { handPage, NO_JOURNAL } from './hand-page';

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
const entry = { id: 'tow-line', text: JSON.stringify(FILE), phrase: checked.value, own: true };

function rig(more: Partial<SessionDependencies> = {}) {
  const hand = handPage();
  const settings = new SettingsStore(null);
  const stored: Take[] = [];
  const session = new PracticeSession({
    ...hand.dependencies,
    takes: {
      async add(take, summary) {
        stored.push(take);
        return { summary: { ...summary, id: 'a' }, problem: undefined };
      },
    },
    journal: NO_JOURNAL,
    settings,
    ...more,
  });
  session.choosePhrase(entry);
  /** To a time of the take that runs, the pump standing still. */
  const freezeTo = (us: number) => hand.freezeTo(hand.page.nowMs + (us - session.nowUs()) / 1000);
  const strike = (us: number) => {
    freezeTo(us);
    hand.send(hand.page.nowMs, 0x99, 38, 90);
  };
  return { session, settings, hand, stored, strike, passTo: freezeTo };
}

describe('a start without all that a take needs', () => {
  it('begins no take, says so, and begins one when what was missing has come', async () => {
    let isConnected = false;
    const { session } = rig({
      loadTools: () => (isConnected ? loadTakeTools() : Promise.reject(new Error('gone'))),
    });
    await session.start();
    expect(session.status).toBe('idle');
    expect(session.problem).toContain('could not be fetched');
    isConnected = true;
    await session.start();
    expect(session.status).toBe('counting in');
    expect(session.problem).toBeUndefined();
    await session.stop();
  });
});

describe('a start that fails', () => {
  it.each<[string, Partial<SessionDependencies>]>([
    ['sound', { ready: () => Promise.reject(new Error('no room for a worker')) }],
    [
      'the pump',
      {
        pump: () => {
          throw new Error('no room for a worker');
        },
      },
    ],
    [
      'the journal',
      {
        journal: {
          begin: () => {
            throw new Error('no room for a worker');
          },
        },
      },
    ],
  ])('for %s is told, and leaves nothing behind', async (_, broken) => {
    const { session, stored, hand } = rig(broken);
    await session.start();
    expect(session.status).toBe('idle');
    expect(session.problem).toContain('The take was not started');
    expect(session.problem).toContain('no room for a worker');
    hand.send(hand.page.nowMs, 0x99, 38, 90);
    await session.stop();
    expect(stored).toEqual([]);
  });

  it('can be tried again', async () => {
    let fails = true;
    const { session, strike, stored } = rig({
      ready: async () => {
        if (fails) throw new Error('not yet');
      },
    });
    await session.start();
    fails = false;
    await session.start();
    expect(session.problem).toBeUndefined();
    strike(4_000);
    await session.stop();
    expect(stored).toHaveLength(1);
  });
});

it('lets go of the journal and of the page when a start fails after them', async () => {
  const ended = vi.fn(async () => undefined);
  const listening = new Set<unknown>();
  vi.spyOn(document, 'addEventListener').mockImplementation((_, on) => void listening.add(on));
  vi.spyOn(document, 'removeEventListener').mockImplementation(
    (_, on) => void listening.delete(on),
  );
  const { session } = rig({
    journal: {
      begin: () => ({
        id: 'a',
        keep: async () => good(undefined),
        end: ended,
        leave: () => undefined,
      }),
    },
    pump: () => {
      throw new Error('no room for a worker');
    },
  });
  await session.start();
  expect(ended).toHaveBeenCalledTimes(1);
  expect(listening).toEqual(new Set());
  vi.restoreAllMocks();
});

describe('a take that cannot be judged', () => {
  const stoppedWith = async (text: string, strikes: boolean) => {
    const end = vi.fn(async () => undefined);
    const leave = vi.fn();
    const { session, stored, strike } = rig({
      journal: { begin: () => ({ ...NO_JOURNAL.begin(), end, leave }) },
    });
    session.choosePhrase({ ...entry, text });
    await session.start();
    if (strikes) strike(4_000);
    await session.stop();
    expect(stored).toEqual([]);
    return { told: session.notices, ended: end.mock.calls.length, left: leave.mock.calls.length };
  };

  it('is left in the journal, and that is told: nothing that was struck is lost', async () => {
    expect(await stoppedWith('{', true)).toEqual({ told: [NOT_JUDGED], ended: 0, left: 1 });
  });

  it('is nothing where nothing was struck', async () => {
    expect((await stoppedWith('{', false)).told).toEqual([]);
    expect(await stoppedWith(entry.text, false)).toEqual({ told: [], ended: 1, left: 0 });
  });
});

describe('a start on a kit that is not there', () => {
  const AWAY: WebMidiState = { kind: 'denied', ...MIDI_STATES.denied };
  const refused = async () => {
    const parts = rig();
    parts.hand.dependencies.inputs.kitAway = AWAY;
    await parts.session.start();
    return parts;
  };

  it('counts nothing in and judges nothing, and says why', async () => {
    const { session, hand, stored } = await refused();
    expect(session.status).toBe('idle');
    expect(hand.isTapped()).toBe(false);
    expect(hand.output.heardUs).toEqual([]);
    expect(session.problem).toContain(AWAY.sentence);
    await session.stop();
    expect(stored).toEqual([]);
  });

  it('is no problem any more once the kit is there, or another plays', async () => {
    const { session, hand } = await refused();
    hand.dependencies.inputs.kitAway = undefined;
    expect(session.problem).toBeUndefined();
    await session.start();
    expect(session.status).toBe('counting in');
    await session.stop();
  });

  it('waits for the answer of the browser', async () => {
    const { session, hand } = rig({
      ready: async () => {
        hand.dependencies.inputs.kitAway = undefined;
      },
    });
    hand.dependencies.inputs.kitAway = AWAY;
    await session.start();
    expect(session.status).toBe('counting in');
    await session.stop();
  });
});

describe('a start that is stopped before anything is heard', () => {
  it('comes to nothing, also when another has begun meanwhile', async () => {
    const waiting: (() => void)[] = [];
    const { session, strike, stored } = rig({
      ready: () => new Promise<void>((resolve) => waiting.push(resolve)),
    });
    const first = session.start();
    await session.stop();
    expect(session.status).toBe('idle');
    const second = session.start();
    waiting[1]!();
    await second;
    const { lane } = session;
    waiting[0]!();
    await first;
    expect(session.lane).toBe(lane);
    strike(4_000);
    await session.stop();
    expect(stored).toHaveLength(1);
  });
});

describe('a phrase that is saved anew', () => {
  const other = { ...entry, text: JSON.stringify({ ...FILE, grouping: 'R L' }) };

  it('is not taken while a start waits, since the take is of the phrase it began with', async () => {
    let fetched = () => undefined as void;
    const { session, strike, stored } = rig({
      loadTools: async () => {
        await new Promise<void>((resolve) => (fetched = resolve));
        return loadTakeTools();
      },
    });
    const started = session.start();
    expect(session.status).toBe('counting in');
    session.choosePhrase(other);
    fetched();
    await started;
    strike(4_000);
    await session.stop();
    expect(stored.map(({ phraseText }) => phraseText)).toEqual([entry.text]);
  });
});

describe('the lane ahead of a take', () => {
  it('is laid out when it is read, once for what was chosen, as soon as that can be done', async () => {
    const { session } = rig();
    expect(session.lane).toBeUndefined();
    await session.fetchTools();
    const laid = vi.spyOn(LiveTimeline.prototype, 'extendTo');
    session.choosePhrase(entry);
    session.choosePhrase({ ...entry });
    expect(laid).not.toHaveBeenCalled();
    const { lane } = session;
    expect(lane?.noteCount).toBeGreaterThan(0);
    expect(session.lane).toBe(lane);
    expect(laid).toHaveBeenCalledTimes(1);
    session.choose({ tempoBpm: 60 });
    session.choose({ volume: 0.5 });
    expect(session.lane).not.toBe(lane);
    expect(laid).toHaveBeenCalledTimes(2);
    laid.mockRestore();
  });
});

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
    session.choose({ tempoBpm: 90 });
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
    const { session, hand } = rig();
    session.choose({ tempoBpm: 120 });
    await session.start();
    // One bar of 2/4 at 120 as count-in; 900 ms of the lead are left after the 600 ms before it.
    expect(hand.output.heardUs.slice(0, 2)).toEqual([-1_000_000, -500_000]);
    await session.stop();
  });
});

describe('the still page', () => {
  it('is kept with the other choices', () => {
    const { session, settings } = rig();
    expect(session.choices.stillPage).toBe(false);
    session.choose({ stillPage: true });
    expect(settings.read('practice', ChoicesShape, FIRST_CHOICES).stillPage).toBe(true);
  });

  it('leaves choices from before there was one as they are', () => {
    const older: Partial<typeof FIRST_CHOICES> = { ...FIRST_CHOICES, tempoBpm: 72 };
    delete older.stillPage;
    const settings = new SettingsStore(null);
    settings.write('practice', older);
    const read = settings.read('practice', ChoicesShape, FIRST_CHOICES);
    expect([read.tempoBpm, read.stillPage]).toEqual([72, false]);
  });
});

it.each([
  [0.03, WRONG_PASS],
  [undefined, WRONG_PASS],
  [0.005, 0.005],
])('a certainty of %s among choices from before loses none of the others', (kept, now) => {
  const settings = new SettingsStore(null);
  settings.write('practice', { ...FIRST_CHOICES, tempoBpm: 72, wrongPass: kept });
  const read = settings.read('practice', ChoicesShape, FIRST_CHOICES);
  expect([read.tempoBpm, read.wrongPass]).toEqual([72, now]);
});
