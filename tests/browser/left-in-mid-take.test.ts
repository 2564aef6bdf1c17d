import type { Page } from 'playwright-core';
import { afterAll, expect, inject, it } from 'vitest';
import { fakeMidiScript } from '../midi/fake-midi-access';
import { connectKit, goTo } from './page/app';
import { heardClicksScript } from './page/heard-clicks';
import { takesInStore } from './page/takes-in-store';
import { launchChromium } from './page/launch';
import { slowFramesScript } from './page/slow-frames';
import { watchPage } from './page/watch-page';

const browser = await launchChromium();
afterAll(() => browser.close());

const strike = (page: Page, velocity: number) =>
  page.evaluate((one) => window.fakeMidi.emit('kit', [0x99, 38, one], performance.now()), velocity);

/**
 * Strikes the snare once, waits until that is written down, and in the same breath strikes on and leaves: to an address,
 * by a reload (empty), or not yet. What is struck last is due to be written 0.4 s later, when the page is gone: only
 * who leaves can have it written.
 */
const strikeAndLeave = async (page: Page, leave?: string) => {
  const gone = leave === undefined ? undefined : page.waitForEvent('load');
  const left = page.evaluate(async (address) => {
    const opening = indexedDB.open('layered-phrases');
    await new Promise((resolve) => (opening.onsuccess = resolve));
    const partsWritten = () =>
      new Promise<number>((resolve) => {
        const counting = opening.result.transaction('journal').objectStore('journal').count();
        counting.onsuccess = () => resolve(counting.result);
      });
    const strikeNow = (velocity: number) =>
      window.fakeMidi.emit('kit', [0x99, 38, velocity], performance.now());
    const before = await partsWritten();
    strikeNow(3);
    while ((await partsWritten()) === before);
    for (const velocity of [4, 5, 6]) strikeNow(velocity);
    opening.result.close();
    if (address === '') location.reload();
    else if (address !== undefined) location.assign(address);
  }, leave);
  // Whoever has left may not answer any more.
  await (gone ? left.catch(() => undefined) : left);
  await gone;
};

/** Where a page of the app that comes next is: the same, or a new one. */
const comesBack = async (page: Page, isGone: boolean) => {
  const next = isGone ? await page.context().newPage() : page;
  if (isGone) await next.goto(inject('address'));
  await goTo(next, 'Log');
  return next;
};

it.each<[string, boolean, (page: Page) => Promise<void>]>([
  ['reloaded', false, (page) => strikeAndLeave(page, '')],
  ['left for another page', true, (page) => strikeAndLeave(page, 'about:blank')],
  [
    'closed',
    true,
    async (page) => {
      await strikeAndLeave(page);
      await page.close({ runBeforeUnload: true });
    },
  ],
])('a take whose tab is %s has every stroke to the last', async (_, isGone, leave) => {
  const context = await browser.newContext({ viewport: { width: 1024, height: 640 } });
  const page = await context.newPage();
  const { faults } = watchPage(page);
  for (const script of [heardClicksScript(), slowFramesScript(), fakeMidiScript()])
    await page.addInitScript(script);
  await page.addInitScript(() => window.fakeMidi.plug('kit', 'Harbour kit'));
  await page.goto(inject('address'));
  await connectKit(page);
  await goTo(page, 'Practise');
  await page.getByTestId('start').click();
  await page.waitForFunction(() => window.heardClicks.queued > 0);
  for (const velocity of [1, 2]) {
    await strike(page, velocity);
    await page.waitForTimeout(700);
  }
  await leave(page);

  const other = await comesBack(page, isGone);
  await other.getByTestId('take-row').waitFor();
  expect(await takesInStore(other)).toEqual([[1, 2, 3, 4, 5, 6]]);
  expect(faults).toEqual([]);
  await context.close();
});
