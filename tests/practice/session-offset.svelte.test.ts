import { deleteDB } from 'idb';
import { beforeEach, describe, expect, it } from 'vitest';
import { checkPhrase } from '../../src/phrase/file/parse-phrase';
import { openTake } from '../../src/live/open-take';
import { PracticeSession } from '../../src/practice/session.svelte';
import { PracticeDatabase } from '../../src/store/database';
import { SettingsStore } from '../../src/store/settings-store';
import { TakeJournal } from '../../src/store/take-journal';
import type { Take } from '../../src/take/take';
import { handPage } from './hand-page';

const NAME = 'session-offset-under-test';
const RIG_MS = 60;
const FILE = {
  title: 'Tow Line',
  meter: '4/4',
  tempoBpm: 120,
  subdivision: 1,
  grouping: 'R L',
  layers: [{ name: 'Sticking' }],
};
const checked = checkPhrase(FILE);
if (!checked.ok) throw new Error(checked.errors[0]!.message);
const ENTRY = {
  id: 'tow-line',
  phrase: checked.value,
  text: JSON.stringify(FILE),
  own: true,
};

beforeEach(async () => {
  localStorage.clear();
  await deleteDB(NAME);
});

describe('a take of a rig with an offset', () => {
  it('is judged and kept without the rig’s part, its raw times untouched', async () => {
    const hand = handPage({ nowMs: 20_000 });
    const kept: Take[] = [];
    let offsetMs = RIG_MS;
    const session = new PracticeSession({
      ...hand.dependencies,
      rigs: { ...hand.dependencies.rigs, beginTake: () => offsetMs },
      takes: {
        add: async (take, summary, id) => {
          kept.push(take);
          return { summary: { ...summary, id: id ?? '' }, problem: undefined };
        },
      },
      journal: new TakeJournal(new PracticeDatabase({ name: NAME })),
      settings: new SettingsStore(),
    });
    session.choosePhrase(ENTRY);
    await session.start();
    const originMs = 20_000 - session.nowUs() / 1000;
    // Measured again while the take runs: the take goes on as it began.
    offsetMs = 0;
    for (let k = 0; k < 8; k++) {
      hand.passTo(originMs + k * 500 + RIG_MS);
      hand.send(hand.page.nowMs, 0x99, 38, 80);
    }
    hand.passTo(hand.page.nowMs + 1000);
    await session.stop();
    const [take] = kept;
    expect(take!.deviceOffsetMs).toBe(RIG_MS);
    expect(take!.messages[1]!.timeUs).toBe(500_000 + RIG_MS * 1000);
    const { judgement } = openTake(take!)!;
    expect(judgement.notes.slice(0, 8).map(({ verdict }) => verdict)).toEqual(
      Array<string>(8).fill('in time'),
    );
    // Without it all of them would be late: 60 ms is more than the tolerance of 35.
    const raw = openTake({ ...take!, deviceOffsetMs: 0 })!.judgement;
    expect(raw.notes.slice(0, 8).map(({ verdict }) => verdict)).toEqual(
      Array<string>(8).fill('late'),
    );
  });
});
