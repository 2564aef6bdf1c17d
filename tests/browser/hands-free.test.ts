import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { countWordSound } from '../../src/sound/synth/count-words';
import { connectKit, openApp, play, practisePhrase, startPlaying } from './page/app';
import { startByKeyboard, tabTo, writeOver } from './page/by-keyboard';
import { launchChromium } from './page/launch';

/** Eighths at 240: a partial is 125 ms, a cycle a bar of one second; 55 notes without a fault are through in 7. */
const PHRASE = {
  title: 'Nine Buoys',
  meter: '4/4',
  tempoBpm: 240,
  subdivision: 2,
  grouping: 'R L R L R L R L',
  layers: [{ name: 'Sticking' }],
};
const BAR_MS = 1000;

let browser: Browser;
let app: Awaited<ReturnType<typeof openApp>>;
let page: Page;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());
beforeEach(async () => {
  app = await openApp(browser);
  page = app.page;
  await connectKit(page);
  await practisePhrase(page, PHRASE);
  await tabTo(page, /^Settings:/);
  await page.keyboard.press('Enter');
});
afterEach(async () => {
  expect(app.faults).toEqual([]);
  await app.close();
});

/** Eighths from one bar (1-based) up to but not including another, so many ms late. */
const eighths = (originMs: number, fromBar: number, toBar: number, lateMs = 0) =>
  Array.from({ length: (toBar - fromBar) * 8 }, (_, i) => ({
    atMs: originMs + (fromBar - 1) * BAR_MS + (i * BAR_MS) / 8 + lateMs,
    note: 38,
    velocity: 80,
  }));

/** Where the lane stands on the screen. */
const laneBox = () => page.locator('canvas').first().boundingBox();

it('a tempo plan goes up with a pass and back after bad cycles, by keyboard alone', async () => {
  await tabTo(page, 'Tempo plan');
  await page.keyboard.press('ArrowDown');
  await page.getByTestId('plan-reason').getByText('Plan: 240, to 300 in 15 steps.').waitFor();
  await tabTo(page, 'Step, bpm');
  await writeOver(page, '30');
  await page.keyboard.press('Tab');
  await page.getByTestId('plan-tempi').getByText('240, 270, 300: three tempi').waitFor();

  const originMs = await startPlaying(page, () => startByKeyboard(page));
  const lane = await laneBox();
  // Told within a second after the seventh bar, with notice, and from a bar line: bar 10.
  const reason = page.getByTestId('plan-reason');
  void play(page, eighths(originMs, 1, 10)).catch(() => undefined);
  await reason.getByText('On to 270: passed at 240.').waitFor();
  await page.getByTestId('upcoming').getByText('270 bpm from bar 10').waitFor();
  await page.getByTestId('plan-progress').getByText('Step 2 of 3, goal 300.').waitFor();
  await page.getByTestId('cycle-announcement').getByText('On to 270: passed at 240.').waitFor();
  // Nothing is played any more.
  await reason.getByText('Back to 240: none of two cycles passed.').waitFor();
  await page
    .getByTestId('upcoming')
    .getByText(/^240 bpm from bar/)
    .waitFor();
  expect(await laneBox()).toEqual(lane);
  await page.keyboard.press('Enter');
  await page.getByTestId('layer-step').first().getByText('passed at 240').waitFor();
}, 90_000);

it('silent bars have no click, and its return tells how far off, by keyboard alone', async () => {
  await tabTo(page, /^Bars without a click/);
  await page.keyboard.press('Enter');
  await page.getByTestId('return').getByText('Click for 2 bars, then none for 2.').waitFor();

  const originMs = await startPlaying(page, () => startByKeyboard(page));
  await play(page, [
    ...eighths(originMs, 1, 3),
    ...eighths(originMs, 3, 5, 25),
    ...eighths(originMs, 5, 7),
  ]);
  // In the last beat of bar 4 two eighths 25 ms late, the return on it: 17 ms on average, less the timers' delay.
  const told = await page
    .getByTestId('return')
    .getByText(/^Click back at bar 5: \d+ ms late; chance alone reaches \d+\.$/)
    .textContent();
  const ms = Number(/(\d+) ms/.exec(told!)![1]);
  expect(ms).toBeGreaterThanOrEqual(15);
  expect(ms).toBeLessThanOrEqual(19);
  const ofBar3 = page.locator('[data-testid=lane-table] td').filter({ hasText: /^3, silent$/ });
  expect(await ofBar3.count()).toBe(8);
  const heardMs = await page.evaluate(() =>
    Array.from({ length: window.heardClicks.queued }, (_, k) => window.heardClicks.heardMs(k)),
  );
  const bars = new Set(heardMs.map((at) => Math.floor((at - originMs + 60) / BAR_MS) + 1));
  expect([0, 1, 2, 3, 4, 5].map((bar) => bars.has(bar))).toEqual([
    true,
    true,
    true,
    false,
    false,
    true,
  ]);
  await page.keyboard.press('Enter');
  await tabTo(page, 'Open this take');
  await page.keyboard.press('Enter');
  await page
    .getByTestId('take-returns')
    .getByText(/^Click back at bar 5: \d+ ms late/)
    .waitFor();
}, 60_000);

it('the count is spoken on the clicks, and not where it is off, by keyboard alone', async () => {
  const oneStart = async () => {
    const before = await page.evaluate(() => ({
      queued: window.heardClicks.queued,
      takenOff: window.heardClicks.takenOff,
    }));
    await startByKeyboard(page);
    await page.getByTestId('status').getByText('Playing').waitFor();
    const heard = await page.evaluate(
      ({ queued, takenOff }) => ({
        seconds: Array.from({ length: window.heardClicks.queued - queued }, (_, i) =>
          window.heardClicks.atSeconds(queued + i),
        ),
        isUndisturbed: window.heardClicks.takenOff === takenOff,
      }),
      before,
    );
    await page.keyboard.press('Enter');
    await page.getByTestId('settings').waitFor();
    return heard;
  };
  // Where the output fell behind on a busy machine, it is begun again.
  const firstBeats = async () => {
    let heard = await oneStart();
    for (let again = 0; !heard.isUndisturbed && again < 5; again++) heard = await oneStart();
    return heard.seconds.slice(0, 8);
  };
  const spoken = page.getByRole('group', { name: 'Spoken count' });
  await spoken.getByRole('radio', { name: 'off' }).focus();
  await page.keyboard.press('ArrowRight');
  expect(await spoken.getByRole('radio', { name: 'beats of the bar' }).isChecked()).toBe(true);

  const withCount = await firstBeats();
  const clicks = withCount.filter((_, i) => i % 2 === 0);
  const words = withCount.filter((_, i) => i % 2 === 1);
  clicks.slice(1).forEach((at, i) => expect(at - clicks[i]!).toBeCloseTo(0.25, 3));
  // Beats of 250 ms leave room for short words.
  for (const [i, word] of (['1', '2', '3', '4'] as const).entries())
    expect(clicks[i]! - words[i]!).toBeCloseTo(countWordSound(word, true, 48_000).beatSeconds, 3);

  await spoken.getByRole('radio', { name: 'beats of the bar' }).focus();
  await page.keyboard.press('ArrowLeft');
  const without = await firstBeats();
  without.slice(1).forEach((at, i) => expect(at - without[i]!).toBeCloseTo(0.25, 3));
}, 60_000);

it('says on a phone what the plan does above the button, and what the silent bars did', async () => {
  await page.setViewportSize({ width: 390, height: 844 });
  const isAboveStop = async (testid: string) => {
    const said = await page.getByTestId(testid).boundingBox();
    const stop = await page.getByTestId('start').boundingBox();
    return said!.y + said!.height <= stop!.y;
  };
  await page.getByTestId('plan-shape').selectOption('even');
  await page.getByTestId('start').click();
  await page.getByTestId('status').getByText('Playing').waitFor();
  await expect.poll(() => isAboveStop('plan-reason')).toBe(true);
  await expect.poll(() => isAboveStop('plan-progress')).toBe(true);
  await page.getByTestId('start').click();
  await page.getByTestId('plan-shape').selectOption('off');
  await page.getByText('Bars without a click in between').click();
  await page.getByTestId('start').click();
  await page.getByTestId('status').getByText('Playing').waitFor();
  await expect.poll(() => isAboveStop('return')).toBe(true);
  await page.getByTestId('start').click();
}, 60_000);
