import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { AUDIO_STATES } from '../../src/sound/audio-state';
import {
  connectKit,
  extraRows,
  goTo,
  openApp,
  play,
  practisePhrase,
  settled,
  startPlaying,
  tableRows,
  type PlannedStroke,
} from './page/app';
import { launchChromium } from './page/launch';

/** Eighths at 120 on one pad: a note every 250 ms, a cycle of four every second, a bar every two. */
const PHRASE = {
  title: 'Breakwater',
  meter: '4/4',
  tempoBpm: 120,
  subdivision: 2,
  grouping: 'R L R L',
  layers: [{ name: 'Sticking' }],
};
const PARTIAL_MS = 250;
const SNARE = 38;

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

/** Starts a take on the virtual kit; the time on the page's clock at which bar 1 was, from one stroke. */
async function startTake(page: Page): Promise<number> {
  await connectKit(page);
  await practisePhrase(page, PHRASE);
  const guessMs = await startPlaying(page);
  await play(page, [{ atMs: guessMs + 2 * PARTIAL_MS, note: SNARE, velocity: 70 }]);
  await settled(page, 3);
  const rows = await tableRows(page);
  const { offsetMs } = rows[2]!;
  if (offsetMs === undefined) {
    const seen = JSON.stringify({ rows: rows.slice(0, 6), extras: await extraRows(page) });
    throw new Error(`The stroke on the third note answers another one, or none: ${seen}`);
  }
  return guessMs - offsetMs;
}

/** The first note that falls at least so long from now. */
const noteIn = (page: Page, originMs: number, aheadMs: number): Promise<number> =>
  page.evaluate(
    ([origin, ahead, partial]) => Math.ceil((performance.now() + ahead! - origin!) / partial!),
    [originMs, aheadMs, PARTIAL_MS],
  );

/** Offset of each stroke from its note, ms: distinct, so that order can be told. */
const offsetOf = (note: number): number => ((note * 7) % 23) - 11;

const strokesFor = (originMs: number, from: number, count: number) =>
  Array.from({ length: count }, (_, i) => ({
    atMs: originMs + (from + i) * PARTIAL_MS + offsetOf(from + i),
    note: SNARE,
    velocity: 70,
  }));

/** Keeps the page's main thread busy for `ms` from `fromMs` on; then the strokes that waited are delivered. */
const block = (page: Page, ms: number, fromMs: number, waiting: readonly PlannedStroke[]) =>
  page.evaluate(
    ({ forMs, startMs, strokes }) =>
      new Promise<void>((resolve) => {
        setTimeout(() => {
          while (performance.now() < startMs + forMs);
          for (const { atMs, note, velocity } of strokes)
            window.fakeMidi.emit('kit', [0x99, note, velocity], atMs);
          resolve();
        }, startMs - performance.now());
      }),
    { forMs: ms, startMs: fromMs, strokes: waiting },
  );

/** What the table says of notes that were played by `strokesFor`. */
async function expectPlayed(page: Page, from: number, count: number): Promise<void> {
  await settled(page, from + count - 1);
  const rows = (await tableRows(page)).slice(from, from + count);
  expect(rows.map(({ verdict }) => verdict)).toEqual(Array<string>(count).fill('in time'));
  rows.forEach(({ offsetMs }, i) =>
    // Read back in tenths of a millisecond, on an origin read in tenths.
    expect(Math.abs(offsetMs! - offsetOf(from + i))).toBeLessThanOrEqual(0.25),
  );
}

const notices = async (page: Page): Promise<string[]> =>
  page.getByTestId('notice').allTextContents();

/** Stops, opens the kept take from the log after a reload, and compares the two tables. */
async function expectKeptTheSame(page: Page): Promise<void> {
  await goTo(page, 'Practise');
  await page.getByTestId('start').click();
  await page.getByTestId('status').getByText('Playing').waitFor({ state: 'detached' });
  const live = { rows: await tableRows(page), extras: await extraRows(page) };
  await page.reload({ waitUntil: 'networkidle' });
  await goTo(page, 'Log');
  await page.getByTestId('take-row').first().getByRole('link').first().click();
  await page.getByTestId('lane-table').waitFor({ state: 'attached' });
  const opened = await tableRows(page);
  expect(opened).toEqual(live.rows.slice(0, opened.length));
  expect(live.rows.slice(opened.length).every(({ offsetMs }) => offsetMs === undefined)).toBe(true);
  const extras = await extraRows(page);
  // The live table shows the last 200.
  expect(extras.slice(Math.max(0, extras.length - 200))).toEqual(live.extras);
}

describe('the live path holds', () => {
  it('over a main thread blocked for half a second: verdicts right and in order', async () => {
    const { page, faults, close } = await openApp(browser);
    const origin = await startTake(page);
    const from = await noteIn(page, origin, 500);
    // Two notes fall inside the block; the first stroke is about 490 ms old when it is delivered.
    await block(page, 500, origin + from * PARTIAL_MS - 20, strokesFor(origin, from, 2));
    await play(page, strokesFor(origin, from + 3, 5));
    await expectPlayed(page, from, 2);
    await expectPlayed(page, from + 3, 5);
    expect(await extraRows(page)).toEqual([]);
    expect(await notices(page)).toEqual([expect.stringContaining('Your timing is not affected')]);
    await expectKeptTheSame(page);
    expect(faults).toEqual([]);
    await close();
  });

  it('over a standstill of three seconds, longer than a stamp is believed for otherwise', async () => {
    const { page, faults, close } = await openApp(browser);
    const origin = await startTake(page);
    const from = await noteIn(page, origin, 500);
    await block(page, 3000, origin + from * PARTIAL_MS - 20, strokesFor(origin, from, 11));
    await play(page, strokesFor(origin, from + 13, 4));
    await expectPlayed(page, from, 11);
    await expectPlayed(page, from + 13, 4);
    await expectKeptTheSame(page);
    expect(faults).toEqual([]);
    await close();
  });

  it('over a page that is hidden: what was struck is judged, and the bars are told', async () => {
    const { page, faults, close } = await openApp(browser);
    const origin = await startTake(page);
    // Headless Chromium shows every page, and Page.setWebLifecycleState freezes only hidden ones: so what
    // the page sees is put in its place.
    const show = (state: 'hidden' | 'visible') =>
      page.evaluate((now) => {
        Object.defineProperty(document, 'visibilityState', { configurable: true, value: now });
        document.dispatchEvent(new Event('visibilitychange'));
      }, state);
    const from = await noteIn(page, origin, 400);
    await show('hidden');
    await play(page, strokesFor(origin, from, 12));
    await show('visible');
    await expectPlayed(page, from, 12);
    const bars = /hidden from bar (\d+) to bar (\d+)\. What was struck/.exec(
      (await notices(page)).join('\n'),
    );
    // Eight notes a bar.
    expect(Number(bars?.[1])).toBeLessThanOrEqual(Math.floor(from / 8) + 1);
    expect(Number(bars?.[2])).toBe(Math.floor((from + 11) / 8) + 1);
    await expectKeptTheSame(page);
    expect(faults).toEqual([]);
    await close();
  });

  it('over sound that the system pauses: the take goes on and the clicks come back', async () => {
    const { page, faults, close } = await openApp(browser, `(${watchClicks.toString()})()`);
    const origin = await startTake(page);
    const from = await noteIn(page, origin, 300);
    const context = (what: 'suspend' | 'resume') =>
      page.evaluate((call) => window.clicks.contexts.at(-1)![call](), what);
    const latestClick = () =>
      page.evaluate(() => Math.max(...window.clicks.startedAtMs, -Infinity));
    await context('suspend');
    await page.getByTestId('notice').getByText(AUDIO_STATES.suspended.sentence).waitFor();
    await play(page, strokesFor(origin, from, 8));
    const before = await latestClick();
    await context('resume');
    await page
      .getByTestId('notice')
      .getByText(/\bbars? \d/)
      .waitFor();
    await play(page, strokesFor(origin, from + 9, 8));
    await expectPlayed(page, from, 8);
    await expectPlayed(page, from + 9, 8);
    expect(await latestClick()).toBeGreaterThan(before + 1000);
    expect((await notices(page)).join()).not.toContain(AUDIO_STATES.suspended.sentence);
    await expectKeptTheSame(page);
    expect(faults).toEqual([]);
    await close();
  });

  it('over a note that the kit does not know: it is mapped without stopping, and nothing is lost', async () => {
    const { page, faults, close } = await openApp(browser);
    const origin = await startTake(page);
    const from = await noteIn(page, origin, 300);
    const on91 = (at: number) => strokesFor(origin, at, 4).map((one) => ({ ...one, note: 91 }));
    await play(page, on91(from));
    await goTo(page, 'Kit');
    await page.getByRole('link', { name: 'What the kit sends' }).click();
    // The screen before has such a choice, too.
    await page.getByRole('heading', { level: 1, name: 'What the kit sends' }).waitFor();
    await page.getByLabel('Note 91 is').selectOption('snare');
    await page.getByRole('button', { name: 'Put it on the note map' }).click();
    await page
      .getByTestId('new-notes')
      .getByRole('status')
      .filter({ hasText: /\b91\b.*\bsnare\b/ })
      .waitFor();
    await goTo(page, 'Practise');
    const later = await noteIn(page, origin, 300);
    await play(page, on91(later));
    await expectPlayed(page, from, 4);
    await expectPlayed(page, later, 4);
    await expectKeptTheSame(page);
    expect(faults).toEqual([]);
    await close();
  });

  it('over 3,000 messages a second for ten seconds: no stroke lost, order kept, replay the same', async () => {
    const { page, faults, close } = await openApp(browser);
    const origin = await startTake(page);
    const from = await noteIn(page, origin, 300);
    const sent = await page.evaluate(
      ({ startMs, snare }) =>
        new Promise<{ strokes: number[]; messages: number; forMs: number }>((resolve) => {
          const strokes: number[] = [];
          const PER_SECOND = 3000;
          const TOTAL = 10 * PER_SECOND;
          let messages = 0;
          const send = () => {
            const now = performance.now();
            for (; messages < TOTAL; messages++) {
              const atMs = startMs + (messages * 1000) / PER_SECOND;
              if (atMs > now) break;
              const velocity = 1 + (strokes.length % 127);
              // Every hundredth of a second: a stroke and its end, and 28 of controller 4 and active sensing.
              if (messages % 30 === 0) {
                window.fakeMidi.emit('kit', [0x99, snare, velocity], atMs);
                strokes.push(velocity);
              } else if (messages % 30 === 1) window.fakeMidi.emit('kit', [0x99, snare, 0], atMs);
              else if (messages % 3 === 2) window.fakeMidi.emit('kit', [0xfe], atMs);
              else window.fakeMidi.emit('kit', [0xb9, 4, messages % 128], atMs);
            }
            if (messages < TOTAL) setTimeout(send, 1);
            else resolve({ strokes, messages, forMs: now - startMs });
          };
          setTimeout(send, startMs - performance.now());
        }),
      { startMs: origin + from * PARTIAL_MS, snare: SNARE },
    );
    expect(sent.messages).toBe(30_000);
    expect(sent.forMs).toBeLessThan(11_000);
    await settled(page, from + 40);
    await expectKeptTheSame(page);
    const kept = await keptStrokes(page);
    // The first stroke is the one that found the origin.
    expect(kept.slice(1)).toEqual(sent.strokes);
    expect(faults).toEqual([]);
    await close();
  });
});

/** Velocities of the newest kept take's strokes in order, from the browser's own store. */
const keptStrokes = (page: Page): Promise<number[]> =>
  page.evaluate(
    () =>
      new Promise<number[]>((resolve, reject) => {
        const opening = indexedDB.open('layered-phrases');
        opening.onerror = () => reject(new Error('the store does not open'));
        opening.onsuccess = () => {
          const reading = opening.result.transaction('takes').objectStore('takes').getAll();
          reading.onerror = () => reject(new Error('the takes cannot be read'));
          reading.onsuccess = () => {
            const take = (reading.result as { status: Uint8Array; data2: Uint8Array }[]).at(-1)!;
            resolve(
              Array.from(take.data2).filter((value, i) => take.status[i] === 0x99 && value > 0),
            );
          };
        };
      }),
  );

declare global {
  interface Window {
    clicks: { contexts: AudioContext[]; startedAtMs: number[] };
  }
}

/** Runs in the page before the app: notes every audio context, and when a sound was started on one. */
function watchClicks(): void {
  const contexts: AudioContext[] = [];
  const startedAtMs: number[] = [];
  window.clicks = { contexts, startedAtMs };
  const Native = window.AudioContext;
  window.AudioContext = class extends Native {
    constructor(options?: AudioContextOptions) {
      super(options);
      contexts.push(this);
    }
  };
  const { start } = AudioBufferSourceNode.prototype;
  AudioBufferSourceNode.prototype.start = function (...when: [number?, number?, number?]) {
    startedAtMs.push(performance.now());
    return start.apply(this, when);
  };
}
