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

/** Strikes the snare, with velocities that count the strokes, and leaves the page in the same breath. */
const strikeAndLeave = (page: Page, velocities: readonly number[], leave?: string) =>
  page.evaluate(
    ([all, address]) => {
      for (const velocity of all)
        window.fakeMidi.emit('kit', [0x99, 38, velocity], performance.now());
      if (address === '') location.reload();
      else if (address !== undefined) location.assign(address);
    },
    [velocities, leave] as const,
  );

/** Where a page of the app that comes next is: the same, or a new one. */
const comesBack = async (page: Page, isGone: boolean) => {
  const next = isGone ? await page.context().newPage() : page;
  if (isGone) await next.goto(inject('address'));
  await goTo(next, 'Log');
  return next;
};

// What was struck since the journal's last writing, 0.4 s ago at most, has no other chance.
it.each<[string, boolean, (page: Page) => Promise<void>]>([
  ['reloaded', false, (page) => strikeAndLeave(page, [3, 4, 5], '')],
  ['left for another page', true, (page) => strikeAndLeave(page, [3, 4, 5], 'about:blank')],
  [
    'closed',
    true,
    async (page) => {
      await strikeAndLeave(page, [3, 4, 5]);
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
    await strikeAndLeave(page, [velocity]);
    await page.waitForTimeout(700);
  }
  await leave(page);

  const other = await comesBack(page, isGone);
  await other.getByTestId('take-row').waitFor();
  expect(await takesInStore(other)).toEqual([[1, 2, 3, 4, 5]]);
  expect(faults).toEqual([]);
  await context.close();
});
