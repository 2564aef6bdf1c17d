import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { describe, expect, inject, it } from 'vitest';
import { chance } from '../../src/time/chance';
import { fakeMidiScript } from '../midi/fake-midi-access';
import { listeningWords } from '../../src/view/screens/capture/played-words';
import { connectKit, goTo } from './page/app';
import { longRunCount } from '../run-count';
import { heardClicksScript } from './page/heard-clicks';
import { slowFramesScript } from './page/slow-frames';
import { takesInStore } from './page/takes-in-store';
import { startChromium } from './page/killable-chromium';

const LISTENING = listeningWords({ status: 'listening', bar: 0, strokes: 0 });
const KILLS = longRunCount(6, 6);
/** Each of them costs seconds of two cores to open. */
const TABS = Math.min(10, longRunCount(30, 6));
/** Strokes come this often; one a tab a tenth of a second is a busy drummer. */
const STROKE_EVERY_MS = 100;

/** A page with a virtual kit; small and still, since nobody looks at it. */
async function openSmall(context: BrowserContext): Promise<Page> {
  const page = await context.newPage();
  await page.setViewportSize({ width: 480, height: 360 });
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await page.addInitScript(heardClicksScript());
  await page.addInitScript(slowFramesScript());
  await page.addInitScript(fakeMidiScript());
  await page.addInitScript(() => window.fakeMidi.plug('kit', 'Harbour kit'));
  await page.goto(inject('address'), { waitUntil: 'commit' });
  return page;
}

/** So many pages that listen to the kit: the first is told to, the others know it from there. */
async function openListening(context: BrowserContext, count: number): Promise<Page[]> {
  const first = await openSmall(context);
  await connectKit(first);
  await goTo(first, 'Practise');
  await context.grantPermissions(['midi']);
  const others = Array.from({ length: count - 1 }, async () => {
    const page = await openSmall(context);
    // A message that means nothing arrives once the app listens.
    await page.waitForFunction(() => window.fakeMidi.emit('kit', [0xfe], performance.now()));
    return page;
  });
  return [first, ...(await Promise.all(others))];
}

/** Starts a take and strikes the snare steadily. */
async function playForEver(page: Page): Promise<void> {
  await page.getByTestId('start').click();
  // The sound may take its time, and nothing is heard before it.
  await page.waitForFunction(() => window.heardClicks.queued > 0);
  await strikeForEver(page);
}

/** Strikes the snare steadily; `told` in the page is when each stroke was delivered. */
const strikeForEver = (page: Page): Promise<void> =>
  page.evaluate((everyMs) => {
    const told: number[] = [];
    Object.assign(window, { told });
    setInterval(() => {
      const now = performance.now();
      window.fakeMidi.emit('kit', [0x99, 38, 1 + (told.length % 127)], now);
      told.push(now);
    }, everyMs);
  }, STROKE_EVERY_MS);

/** How many strokes were delivered in a page until a second ago. */
const deliveredASecondAgo = (page: Page): Promise<number> =>
  page.evaluate(() => {
    const { told } = window as unknown as { told: number[] };
    return told.filter((at) => at <= performance.now() - 1000).length;
  });

/** Kills a Chromium with a take in each of its tabs after a while, and looks in another at what is left. */
async function killWhilePlaying(afterMs: number, context: string): Promise<void> {
  const profile = mkdtempSync(join(tmpdir(), 'killed-'));
  const first = await startChromium(profile);
  const pages = await openListening(first.context, TABS);
  await Promise.all(pages.map(playForEver));
  await new Promise((resolve) => setTimeout(resolve, afterMs));
  const delivered = await Promise.all(pages.map(deliveredASecondAgo));
  first.kill();
  await first.browser.close().catch(() => undefined);

  const second = await startChromium(profile);
  const page = await second.context.newPage();
  await page.goto(inject('address'));
  await page
    .getByTestId('notice')
    .getByText(new RegExp(`\\b${TABS}\\b`))
    .waitFor();
  const takes = await takesInStore(page);
  second.kill();
  await second.browser.close().catch(() => undefined);
  rmSync(profile, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 });

  expect(takes, context).toHaveLength(TABS);
  for (const velocities of takes)
    expect(velocities, context).toEqual(velocities.map((_, i) => 1 + (i % 127)));
  const kept = takes.map((velocities) => velocities.length).sort((a, b) => a - b);
  delivered
    .sort((a, b) => a - b)
    .forEach((count, i) => expect(kept[i], context).toBeGreaterThanOrEqual(count));
}

describe('a browser that is killed while playing', () => {
  it(`loses nothing older than a second, at ${KILLS * TABS} random moments of a take`, async () => {
    const seed = 20260504;
    const { share } = chance(seed);
    const waits = Array.from({ length: KILLS }, () => 1700 + 2000 * share());
    for (const [k, afterMs] of waits.entries())
      await killWhilePlaying(afterMs, `seed ${seed}, kill ${k + 1}`);
  }, 600_000);

  it('loses nothing older than a second of what is captured, and says that it was cut short', async () => {
    const profile = mkdtempSync(join(tmpdir(), 'killed-'));
    const first = await startChromium(profile);
    const page = await openSmall(first.context);
    await connectKit(page);
    await page.evaluate(() => (location.hash = '#capture'));
    await page.getByLabel('without a click').check();
    await page.getByTestId('capture-start').click();
    await page.getByText(LISTENING).waitFor();
    await strikeForEver(page);
    await new Promise((resolve) => setTimeout(resolve, 3300));
    const delivered = await deliveredASecondAgo(page);
    first.kill();
    await first.browser.close().catch(() => undefined);

    const second = await startChromium(profile);
    const after = await second.context.newPage();
    await after.goto(`${inject('address')}#capture`);
    const before = await after.getByTestId('played-before').getByRole('button').innerText();
    second.kill();
    await second.browser.close().catch(() => undefined);
    rmSync(profile, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 });
    expect(before).toMatch(/^\d\d:\d\d, \d+ strokes, without a click, cut short$/);
    expect(Number(/(\d+) strokes/.exec(before)![1])).toBeGreaterThanOrEqual(delivered);
  }, 120_000);
});
