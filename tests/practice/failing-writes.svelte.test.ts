import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { LiveTake } from '../../src/live/live-take';
import { plainTimeline } from '../../src/live/live-timeline';
import { CaptureHistory } from '../../src/practice/capture/capture-history.svelte';
import { Compositions } from '../../src/practice/compose/compositions.svelte';
import { UnsavedEdits } from '../../src/practice/compose/unsaved-edits';
import { OwnKits } from '../../src/practice/inputs/own-kits.svelte';
import { Library } from '../../src/practice/library.svelte';
import { TakeJournalKeeper } from '../../src/practice/takes/take-journal-keeper';
import { TakeRun } from '../../src/practice/takes/take-run';
import { editHead } from '../../src/phrase/edit/edit-head';
import { CaptureStore } from '../../src/store/capture-store';
import type { PracticeDatabase } from '../../src/store/database';
import { kitStore, phraseStore } from '../../src/store/own-text-store';
import { SettingsStore } from '../../src/store/settings-store';
import { STORE_MESSAGES } from '../../src/store/store-problem';
import { TakeJournal } from '../../src/store/take-journal';
import { TakeStore } from '../../src/store/take-store';
import { unfinishedTakes } from '../../src/store/unfinished-takes';
import { phraseOf } from '../phrase/phrase-of';
import { freshDatabase } from '../store/fresh-database';
import { sampleSummary, sampleTake } from '../store/sample-take';
import { NO_OTHER_TABS } from './compose/no-other-tabs';
import { handPage } from './hand-page';

const open = freshDatabase('failing-writes-under-test');
beforeEach(() => vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] }));
afterEach(() => vi.useRealTimers());

/** Something that is written: again and again where it goes on, and what is told of it. */
interface Writing {
  write(): unknown;
  told(): string | undefined;
  /** What another page finds of it. */
  found(database: PracticeDatabase): Promise<unknown>;
}

function takeAtTheStop(database: PracticeDatabase): Writing {
  const takes = new TakeStore(database, () => Promise.resolve(true));
  let told: string | undefined;
  const list = async () => (told = (await takes.list()).problem?.message);
  takes.onStoredLater(() => void list());
  return {
    write: () => takes.add(sampleTake(), sampleSummary(), 'take').then(list),
    told: () => told,
    found: async (other) => {
      const found = await new TakeStore(other).get('take');
      return found.ok && found.value?.messages.length;
    },
  };
}

function takeWhilePlayed(database: PracticeDatabase): Writing {
  const hand = handPage();
  const take = new LiveTake(plainTimeline(phraseOf({ grouping: 'R L' }), 1, 90), GENERAL_MIDI);
  const run = new TakeRun(hand.dependencies, {
    take,
    click: () => ({ follows: 'meter', beats: 'all' }),
    reference: () => 'off',
    onCycle: () => undefined,
  });
  run.start();
  let told: string | undefined;
  const tell = (problem: { message: string } | undefined) => (told = problem?.message);
  const journal = new TakeJournal(database);
  const keeper = new TakeJournalKeeper({ journal, tell }, () => ({
    phraseText: '{}',
    startedAt: '2026-03-01T10:00:00.000Z',
  }));
  let strokes = 0;
  return {
    write() {
      hand.passTo(hand.page.nowMs + 500);
      if (strokes < 3) hand.send(hand.page.nowMs, 0x99, 38, ++strokes);
      keeper.tick(run);
    },
    told: () => told,
    async found(other) {
      keeper.leave();
      const [cut] = await unfinishedTakes(other);
      return cut?.take.messages.length;
    },
  };
}

function phrase(database: PracticeDatabase): Writing {
  const library = new Library(phraseStore(database));
  const unsaved = new UnsavedEdits(new SettingsStore(null), NO_OTHER_TABS);
  const composition = new Compositions(library, unsaved).open(undefined)!;
  let tempoBpm = 100;
  return {
    write() {
      composition.edit((draft) => editHead(draft, { tempoBpm: Math.min(103, ++tempoBpm) }));
      return composition.flush();
    },
    told: () => composition.problem,
    async found(other) {
      const { texts } = await phraseStore(other).list();
      return texts[0] && Number(/"tempoBpm": (\d+)/.exec(texts[0].text)?.[1]) - 100;
    },
  };
}

function kit(database: PracticeDatabase): Writing {
  const kits = new OwnKits(kitStore(database));
  let told: string | undefined;
  return {
    async write() {
      const saved = await kits.save({ ...GENERAL_MIDI, title: 'Boathouse' });
      told = saved.ok ? undefined : saved.errors[0]!.message;
    },
    told: () => told,
    found: async (other) => (await kitStore(other).list()).texts.length * 3,
  };
}

function capture(database: PracticeDatabase): Writing {
  const history = new CaptureHistory(new CaptureStore(database));
  let count = 0;
  return {
    write: () =>
      history.writeSoFar({
        id: 'capture',
        at: '2026-03-01T10:00:00.000Z',
        messages: Array.from({ length: (count = Math.min(3, count + 1)) }, (_, i) => ({
          timeUs: i * 500_000,
          status: 0x99,
          data1: 38,
          data2: 90,
        })),
        kit: GENERAL_MIDI,
        clickBpm: undefined,
        meter: '4/4',
        fileName: undefined,
        isCutShort: true,
      }),
    told: () => history.problem,
    found: async (other) => (await new CaptureStore(other).newest(1))[0]?.take.messages.length,
  };
}

const { put } = IDBObjectStore.prototype;

/** What becomes of each record that is put, until mocks are restored, and what the player is told of it. */
const FAULTS: readonly [string, string, typeof put][] = [
  [
    'fails',
    STORE_MESSAGES.LOST,
    () => {
      throw new DOMException('no such file', 'UnknownError');
    },
  ],
  [
    'finds no room',
    STORE_MESSAGES.FULL,
    () => {
      throw new DOMException('no room', 'QuotaExceededError');
    },
  ],
  [
    'is never answered',
    STORE_MESSAGES.STUCK,
    function (this: IDBObjectStore, ...record) {
      const request = put.apply(this, record);
      request.addEventListener = () => undefined;
      return request;
    },
  ],
];

/** Nobody plays on for longer without being told that nothing is kept. */
const TOLD_WITHIN_MS = 5000;
const realTimeout = setTimeout;

/**
 * Lets up to so much time pass, 200 ms at a time, and the browser do its own work in between; less once it is so. On busy
 * cores a write that is answered takes a while, and must not come to look like one that is not.
 */
async function pass(ms: number, isSo?: () => boolean): Promise<void> {
  for (let passed = 0; passed < ms && !isSo?.(); passed += 200) {
    await new Promise((resolve) => realTimeout(resolve, isSo ? 40 : 10));
    await vi.advanceTimersByTimeAsync(200);
  }
}

describe.each([
  ['a take at the stop', takeAtTheStop],
  ['a take while it is played', takeWhilePlayed],
  ['a phrase', phrase],
  ['a kit', kit],
  ['a capture', capture],
])('the writing of %s', (_, writingOf) => {
  /** Time in which what is still to be written gets its turn: a take that is played goes on being looked at. */
  const goOn = async (writing: Writing) => {
    for (let time = 0; time < 6; time++) {
      if (writingOf === takeWhilePlayed) writing.write();
      await pass(3000);
    }
  };

  it.each(FAULTS)('that %s is told, and made up for', async (_fault, sentence, answer) => {
    const database = open();
    await database.all('takes');
    const writing = writingOf(database);
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(answer);
    for (let time = 0; time < 2; time++) {
      void writing.write();
      await pass(TOLD_WITHIN_MS, () => writing.told()?.includes(sentence) === true);
      expect(writing.told()).toContain(sentence);
    }

    // There is room again, and what is written next is the last.
    vi.restoreAllMocks();
    await pass(600);
    void writing.write();
    // However long a busy machine takes to write.
    await pass(10 * TOLD_WITHIN_MS, () => writing.told() === undefined);
    expect(writing.told()).toBeUndefined();
    // Nothing is wrong any more once an older write is through; the last may still be on its way.
    await goOn(writing);
    vi.useRealTimers();
    await expect.poll(() => writing.found(open())).toBe(3);
  });

  it.each(FAULTS)('that %s for two seconds loses nothing', async (_fault, _sentence, answer) => {
    const database = open();
    await database.all('takes');
    const writing = writingOf(database);
    for (let time = 0; time < 2; time++) {
      void writing.write();
      await pass(600);
    }
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(answer);
    void writing.write();
    await pass(2000);
    vi.restoreAllMocks();
    await goOn(writing);
    vi.useRealTimers();
    await expect.poll(() => writing.found(open())).toBe(3);
  });
});
