import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { STORE_MESSAGES } from '../../src/store/store-problem';
import { goTo, playTake, pressWay, showEveryScreen } from './page/app';
import { deadlinesScript, letDeadlinesGo, showsWithin } from './page/deadlines';
import { launchChromium } from './page/launch';
import { simulatedPlayerScript } from './page/simulated-player';
import { slowFramesScript } from './page/slow-frames';
import { watchPage } from './page/watch-page';

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

async function openedWith(script: string) {
  const context = await browser.newContext({ viewport: { width: 1024, height: 640 } });
  const page = await context.newPage();
  const { faults } = watchPage(page);
  await page.addInitScript(simulatedPlayerScript());
  await page.addInitScript(slowFramesScript());
  await page.addInitScript(deadlinesScript());
  await page.addInitScript(script);
  await page.goto(inject('address'), { waitUntil: 'commit' });
  return { page, faults, close: () => context.close() };
}

const heading = (page: Page, name: string) =>
  page.getByRole('heading', { level: 1, name, exact: true });

/** Nobody looks at a page without what they came for for longer, counted in deadlines of its own: a slow machine is slow. */
const MOST_MS = 3000;

/** The first screen and the others behind the navigation show, and what is wrong, within three seconds. */
async function showsScreens(page: Page, sentence?: string): Promise<void> {
  await showsWithin(MOST_MS, page, page.getByTestId('start'));
  for (const screen of ['Phrases', 'Kit', 'Log'] as const) {
    await pressWay(page, screen);
    await showsWithin(MOST_MS, page, heading(page, screen));
  }
  if (sentence !== undefined)
    await showsWithin(MOST_MS, page, page.getByTestId('notice').getByText(sentence));
  await letDeadlinesGo(page);
}

const NEVER = '() => new Promise(() => {})';

describe.concurrent('a browser that leaves a question unanswered', () => {
  it.each([
    [
      'whether to keep the data',
      `StorageManager.prototype.persist = ${NEVER};
      StorageManager.prototype.persisted = async () => false;`,
      undefined,
    ],
    [
      'which sound outputs there are',
      `MediaDevices.prototype.enumerateDevices = ${NEVER};`,
      undefined,
    ],
    ['whether MIDI is allowed', `Permissions.prototype.query = ${NEVER};`, undefined],
    ['where the databases are', `IDBFactory.prototype.databases = ${NEVER};`, undefined],
    [
      'to open the store',
      `const open = IDBFactory.prototype.open;
        IDBFactory.prototype.open = function (...names) {
          const request = open.apply(this, names);
          request.addEventListener = () => undefined;
          return request;
        };`,
      STORE_MESSAGES.SILENT,
    ],
  ])(
    '%s: every screen shows within 3 s, and what is wrong is told',
    async (_, script, sentence) => {
      const { page, faults, close } = await openedWith(script);
      await showsScreens(page, sentence);
      expect(faults).toEqual([]);
      await close();
    },
  );
});

describe('a browser without media queries', () => {
  it('shows every screen within 3 s, and plays', async () => {
    const { page, faults, close } = await openedWith('delete window.matchMedia;');
    await showsScreens(page);
    await goTo(page, 'Practise');
    await playTake(page);
    await goTo(page, 'Log');
    await page.getByTestId('take-row').getByRole('link').first().click();
    await page.getByRole('button', { name: 'MIDI file' }).waitFor();
    await showEveryScreen(page);
    expect(faults).toEqual([]);
    await close();
  });
});

describe('an old tab that does not let go of the store', () => {
  it('is told within 3 s, and the take is in the log once it does', async () => {
    const context = await browser.newContext({ viewport: { width: 1024, height: 640 } });
    const old = await context.newPage();
    // Of the same origin, and no page of the app's.
    await old.goto(`${inject('address')}licences.txt`);
    await old.evaluate(
      () =>
        new Promise<void>((resolve) => {
          // Version 1 of the tables; it hears nothing of a version change, as a page that is busy or frozen.
          const opening = indexedDB.open('layered-phrases', 10);
          opening.onupgradeneeded = () =>
            opening.result.createObjectStore('phrases', { keyPath: 'id' });
          opening.onsuccess = () => {
            Object.assign(window, { held: opening.result });
            resolve();
          };
        }),
    );
    const page = await context.newPage();
    const { faults } = watchPage(page);
    await page.addInitScript(simulatedPlayerScript());
    await page.addInitScript(deadlinesScript());
    await page.goto(inject('address'), { waitUntil: 'commit' });
    const notice = page.getByTestId('notice');
    await showsScreens(page, STORE_MESSAGES.BLOCKED);
    await goTo(page, 'Practise');
    await playTake(page);
    await page.getByTestId('last-take').getByText('Not stored').waitFor();
    await old.close();
    await page.getByTestId('last-take').getByText('In the log').waitFor();
    await expect.poll(() => notice.allTextContents()).toEqual([]);
    await page.reload({ waitUntil: 'commit' });
    await letDeadlinesGo(page);
    await goTo(page, 'Log');
    await page.getByTestId('take-row').waitFor();
    expect(await page.getByTestId('take-row').count()).toBe(1);
    expect(await notice.allTextContents()).toEqual([]);
    expect(faults).toEqual([]);
    await context.close();
  });
});

describe('a player who is asked whether the data may be kept, and does not answer', () => {
  it('has the take in the log, and again after a reload', async () => {
    const script = `StorageManager.prototype.persist = ${NEVER};
      StorageManager.prototype.persisted = async () => false;`;
    const { page, faults, close } = await openedWith(script);
    await letDeadlinesGo(page);
    await playTake(page);
    for (let visit = 0; visit < 2; visit++) {
      await goTo(page, 'Log');
      await page.getByTestId('take-row').first().waitFor();
      expect(await page.getByTestId('take-row').count()).toBe(1);
      expect(await page.getByTestId('notice').allTextContents()).toEqual([]);
      await page.reload({ waitUntil: 'commit' });
      await letDeadlinesGo(page);
    }
    expect(faults).toEqual([]);
    await close();
  });
});

/** What stands in every table beside the good entries: of the right key, and nothing that its reader can use. */
const WRONG = [
  {},
  { v: 1 },
  { v: 1, title: 7, text: {}, savedAt: [] },
  { v: 1, title: 'Ebb', text: '{"title":"Ebb","layers":[{"where":{"every":[]}}]}', savedAt: 'x' },
  { v: 99, title: 'Later', text: '{}', savedAt: 'x' },
  { packed: null },
  { packed: { v: 1, passages: [], tempos: [] } },
  { startedAt: 7, phraseTitle: null, layer: 99 },
  { startedAt: '2026-03-01T10:00:00.000Z', phraseText: '{', kitText: '{', v: 1 },
  { at: 5, said: null, v: 1 },
  { at: 'x', v: 1, kitText: 'x', timeUs: [NaN, 1e15] },
  { status: null, tempos: [{ bpm: 0 }], passages: [{ layer: 99 }] },
];
const TABLES = ['summaries', 'takes', 'phrases', 'kits', 'journal', 'plays'];

describe('a store with damaged entries of every kind', () => {
  it('opens every screen within 3 s with the good ones in it, and names the damage', async () => {
    const { page, faults, close } = await openedWith('');
    await letDeadlinesGo(page);
    await playTake(page);
    await goTo(page, 'Log');
    await page.getByTestId('take-row').waitFor();
    await page.evaluate(
      async ([tables, wrong]) => {
        const db = await new Promise<IDBDatabase>((resolve) => {
          const request = indexedDB.open('layered-phrases');
          request.onsuccess = () => resolve(request.result);
        });
        const transaction = db.transaction(tables, 'readwrite');
        for (const table of tables)
          wrong.forEach((record, n) => {
            const key =
              table === 'journal' ? { takeId: `wrong ${n}`, part: 0 } : { id: `wrong ${n}` };
            transaction.objectStore(table).put({ ...record, ...key });
          });
        await new Promise((resolve) => (transaction.oncomplete = resolve));
        db.close();
      },
      [TABLES, WRONG] as const,
    );
    await goTo(page, 'Practise');
    await page.reload({ waitUntil: 'commit' });
    await showsScreens(page);
    await page.getByTestId('take-row').waitFor();
    expect(await page.getByTestId('take-row').count()).toBe(1);
    await page.goto(`${inject('address')}#capture`);
    await heading(page, 'Capture').waitFor();
    await goTo(page, 'Log');
    await page.getByText('of what is kept on this machine cannot be read').waitFor();
    await page.getByTestId('to-what-is-kept').click();
    await expect
      .poll(() => page.getByTestId('damaged').getByRole('listitem').count())
      .toBeGreaterThanOrEqual(4 * WRONG.length);
    expect(faults).toEqual([]);
    await close();
  });

  it('opens within 3 s whatever stands among the choices', async () => {
    const values = ['', 'x', 'null', '7', '[]', '{}', '{"a":"{}"}', '"x"', '[null]', '1e999'];
    const { page, faults, close } = await openedWith('');
    await page.getByTestId('start').waitFor();
    const keys = await page.evaluate(() => Object.keys(localStorage));
    expect(keys.length).toBeGreaterThan(0);
    for (const value of values) {
      await page.evaluate(
        ([names, text]) => names.forEach((name) => localStorage.setItem(name, text)),
        [[...keys, 'layered-phrases.1.unsaved edits', 'layered-phrases.1.rigs'], value] as const,
      );
      await page.reload({ waitUntil: 'commit' });
      await showsWithin(MOST_MS, page, page.getByTestId('start'));
    }
    expect(faults).toEqual([]);
    await close();
  });
});
