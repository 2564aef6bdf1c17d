import { ok } from 'node:assert/strict';
import type { Page } from 'playwright-core';
import { practisePhrase } from '../browser/page/app';
import { libraryPhrases } from '../phrase/library-phrases';
import { duration, p50, p99, type BenchRow } from './bench-row';

// How this is measured. Chromium keeps the page's main thread busy until it is as slow as asked for, so that the
// processor time of its tasks, which the trace tells (tdur), is that of a processor so much slower; other work on the
// machine is not in it. A frame's work is that of all tasks from one animation frame to the next: scripts, layout, paint.

/** A processor this many times slower than the machine's stands for an old laptop. */
const SLOWDOWN = 4;
const FRAME_MS = 16;
const SCREEN_MS = 500;
const PLAYED_MS = 20_000;
const SCREENS = [
  'compose/five-fathoms',
  'vary/quay-steps',
  'phrases',
  'phrases/quay-steps',
  'sheet/quay-steps',
  'capture',
  'kit',
  'kit/offset',
  'log',
  'help',
];

/** By which the page's main thread is known. */
const MARK = 'traced';
/** Set when a screen's heading has the focus and has been painted. */
const SHOWN = 'screen shown';

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  /** When it began, and how long it took by the clock and by the processor, microseconds. */
  readonly ts: number;
  readonly dur?: number;
  readonly tdur?: number;
}

/** The tasks of the page's main thread while something is done there, when its frames began, and when marks were set. */
async function traced(page: Page, work: () => Promise<void>) {
  const browser = page.context().browser();
  ok(browser, 'the page is in a browser');
  const slow = await page.context().newCDPSession(page);
  await slow.send('Emulation.setCPUThrottlingRate', { rate: SLOWDOWN });
  await browser.startTracing(page, {
    categories: ['devtools.timeline', 'toplevel', 'blink.user_timing'],
  });
  await page.evaluate((name) => performance.mark(name), MARK);
  await work();
  const { traceEvents } = JSON.parse(String(await browser.stopTracing())) as {
    traceEvents: readonly TraceEvent[];
  };
  await slow.send('Emulation.setCPUThrottlingRate', { rate: 1 });
  const mark = traceEvents.find(({ name }) => name === MARK);
  ok(mark, "the page's own mark is in the trace");
  const onMain = traceEvents.filter(({ pid, tid }) => pid === mark.pid && tid === mark.tid);
  return {
    markAt: (name: string) => onMain.find((event) => event.name === name)?.ts,
    tasks: onMain.filter(({ name, ph }) => ph === 'X' && name.endsWith('RunTask')),
    frames: onMain
      .filter(({ name }) => name === 'FireAnimationFrame')
      .map(({ ts }) => ts)
      .sort((a, b) => a - b),
  };
}

/** Work of each frame, ms of the slowed processor. */
async function playedFrames(page: Page): Promise<number[]> {
  await page.getByTestId('layer-step').last().click();
  await page.getByTestId('start').click();
  await page.getByTestId('status').getByText('Playing').waitFor();
  const { tasks, frames } = await traced(page, () => page.waitForTimeout(PLAYED_MS));
  await page.getByTestId('start').click();
  const work = frames.map(() => 0);
  for (const { ts, dur = 0, tdur = 0 } of tasks) {
    const frame = frames.findLastIndex((from) => from <= ts + dur);
    if (frame >= 0) work[frame]! += tdur / 1000;
  }
  return work;
}

/** What a screen takes until it is shown, and until nothing of it is left to do, ms of the slowed processor. */
interface ScreenWork {
  readonly route: string;
  readonly shownMs: number;
  readonly wholeMs: number;
}

async function screenWork(page: Page, route: string): Promise<ScreenWork> {
  const { tasks, markAt } = await traced(page, async () => {
    await page.evaluate((mark) => {
      const painted = () => setTimeout(() => performance.mark(mark));
      addEventListener('focusin', () => requestAnimationFrame(painted), { once: true });
    }, SHOWN);
    await page.evaluate((hash) => (location.hash = hash), `#${route}`);
    await page.locator('h1:focus').waitFor();
    await page.waitForTimeout(SCREEN_MS);
  });
  const shownAt = markAt(SHOWN);
  ok(shownAt !== undefined, `${route} is painted`);
  const workMs = (some: typeof tasks) => some.reduce((sum, { tdur = 0 }) => sum + tdur, 0) / 1000;
  return {
    route,
    shownMs: workMs(tasks.filter(({ ts }) => ts < shownAt)),
    wholeMs: workMs(tasks),
  };
}

/** The richest phrase of the library under a title of its own, kept: its id. */
async function keepOwnPhrase(page: Page): Promise<string> {
  const richest = libraryPhrases()
    .map(({ text }) => JSON.parse(text) as { readonly layers: readonly object[] })
    .reduce((a, b) => (b.layers.length > a.layers.length ? b : a));
  const title = 'My own';
  await practisePhrase(page, { ...richest, title });
  await page.evaluate(() => (location.hash = '#phrases'));
  const href = await page.getByRole('link', { name: title }).getAttribute('href');
  return href!.split('/').at(-1)!;
}

/** The page as an old laptop would have it, played by the simulated player, which is chosen. */
export async function oldLaptopRows(page: Page): Promise<BenchRow[]> {
  const work = await playedFrames(page);
  ok(work.length > 100, `${work.length} frames`);
  const screens: ScreenWork[] = [];
  const own = await keepOwnPhrase(page);
  for (const route of [...SCREENS, `compose/${own}`, `vary/${own}`])
    screens.push(await screenWork(page, route));
  const slowest = screens.reduce((a, b) => (b.wholeMs > a.wholeMs ? b : a));
  const slow = p99(work);
  return [
    {
      name: `playing, processor slowed ${SLOWDOWN} times, scripts and paint of a frame`,
      asserted: `${work.length} frames drawn while it plays`,
      p50: duration(p50(work)),
      tail: `p99 ${duration(slow)}`,
      aim: `p99 < ${FRAME_MS} ms`,
      met: slow < FRAME_MS,
      note: `Processor time. On a busy machine fewer frames are drawn, and each has more in it: ${work.length} of ${(PLAYED_MS * 60) / 1000} here. The most was ${duration(Math.max(...work))}.`,
    },
    {
      name: `screens, processor slowed ${SLOWDOWN} times`,
      asserted: `${screens.length} screens have the focus on their heading, and are painted`,
      p50: duration(p50(screens.map(({ wholeMs }) => wholeMs))),
      tail: `longest ${duration(slowest.wholeMs)}`,
      aim: `each < ${SCREEN_MS} ms`,
      met: slowest.wholeMs < SCREEN_MS,
      note: `Processor time of the page's main thread until half a second after the heading has the focus, and in brackets until the frame with the heading is painted. ${screens.map(({ route, wholeMs, shownMs }) => `${route} ${duration(wholeMs)} (${duration(shownMs)})`).join(', ')}.`,
    },
  ];
}
