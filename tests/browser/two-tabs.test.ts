import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeEach, expect, inject, it } from 'vitest';
import { inDatabase } from './page/app';
import { launchChromium } from './page/launch';
import { simulatedPlayerScript } from './page/simulated-player';
import { watchPage } from './page/watch-page';

const browser = await launchChromium();
let context: BrowserContext;
beforeEach(async () => {
  context = await browser.newContext({ viewport: { width: 1024, height: 640 } });
});
afterEach(() => context.close());
afterAll(() => browser.close());

async function openAt(hash: string) {
  const page = await context.newPage();
  const { faults } = watchPage(page);
  await page.addInitScript(simulatedPlayerScript());
  await page.goto(inject('address') + hash);
  return { page, faults };
}

const titleOf = (page: Page) => page.getByLabel('Title', { exact: true });
const isKept = (page: Page) =>
  page.getByTestId('kept-state').getByText('Kept on this machine.').waitFor();

it('keeps what two tabs write on one phrase, and tells the second', async () => {
  const first = await openAt('#compose');
  await titleOf(first.page).fill('Slip');
  await isKept(first.page);
  await expect.poll(() => first.page.url()).toMatch(/#compose\/own-/);
  await inDatabase(first.page);
  const address = new URL(first.page.url()).hash;
  const second = await openAt(address);
  await titleOf(second.page).waitFor();

  await titleOf(first.page).fill('Slip of the first');
  await inDatabase(first.page);
  await titleOf(second.page).fill('Slip of the second');
  await second.page
    .getByTestId('notice')
    .getByText(
      'Another tab has changed the same phrase. What you wrote is kept beside it, as "Slip of the second".',
    )
    .waitFor();
  expect(await first.page.getByTestId('notice').count()).toBe(0);
  await expect.poll(() => new URL(second.page.url()).hash).not.toBe(address);

  // Each is found at its own address by whoever opens it.
  for (const [{ page }, title] of [
    [first, 'Slip of the first'],
    [second, 'Slip of the second'],
  ] as const) {
    await inDatabase(page);
    await page.reload();
    await expect.poll(() => titleOf(page).inputValue()).toBe(title);
    expect(await page.getByTestId('notice').count()).toBe(0);
  }
  expect([...first.faults, ...second.faults]).toEqual([]);
});

it('keeps a take whole that is played beside a tab that opens, without locks, too', async () => {
  await context.addInitScript(() => {
    Object.defineProperty(Navigator.prototype, 'locks', { get: () => undefined });
  });
  const playing = await openAt('');
  await playing.page.getByTestId('start').click();
  await playing.page.waitForTimeout(5000);
  const other = await openAt('#log');
  await other.page.getByText('No takes yet').waitFor();
  expect(await other.page.getByTestId('notice').count()).toBe(0);
  await playing.page.waitForTimeout(1500);
  // The tab goes without a word: what it wrote down is whole.
  await playing.page.close();
  await other.page.reload();
  await other.page.getByTestId('take-row').waitFor();
  expect(await other.page.getByTestId('take-row').count()).toBe(1);
  expect([...playing.faults, ...other.faults]).toEqual([]);
});
