import { afterAll, expect, inject, it } from 'vitest';
import { goTo, inDatabase, playTake, showEveryScreen } from './page/app';
import { launchChromium } from './page/launch';
import { simulatedPlayerScript } from './page/simulated-player';
import { watchPage } from './page/watch-page';

// No potentially trustworthy origin (Secure Contexts, 3.1): neither https nor a loopback address or name.
const browser = await launchChromium('--host-resolver-rules=MAP drum.example 127.0.0.1');
const address = inject('address').replace('127.0.0.1', 'drum.example');
afterAll(() => browser.close());

async function open(hash = '') {
  const context = await browser.newContext({ viewport: { width: 1024, height: 640 } });
  const page = await context.newPage();
  const { faults } = watchPage(page);
  await page.addInitScript(simulatedPlayerScript());
  await page.goto(address + hash);
  return { page, faults };
}

it('says over plain http what the browser gives to no such page, and what works', async () => {
  const { page, faults } = await open();
  expect(await page.evaluate(() => [isSecureContext, 'requestMIDIAccess' in navigator])).toEqual([
    false,
    false,
  ]);
  const notice = page.getByTestId('notice');
  await notice.getByText('over plain http').waitFor();
  await showEveryScreen(page);
  expect(faults).toEqual([]);
});

it('keeps a take over plain http, and a phrase, over a reload', async () => {
  const { page, faults } = await open();
  await playTake(page);
  await page.goto(`${address}#compose`);
  await page.getByLabel('Title', { exact: true }).fill('Slip');
  await page.getByTestId('kept-state').getByText('Kept on this machine.').waitFor();
  await inDatabase(page);
  for (let visit = 0; visit < 2; visit++) {
    await goTo(page, 'Log');
    await page.getByTestId('take-row').waitFor();
    expect(await page.getByTestId('take-row').count()).toBe(1);
    await goTo(page, 'Phrases');
    await page.getByRole('link', { name: 'Slip', exact: true }).first().waitFor();
    await page.reload();
  }
  expect(faults).toEqual([]);
});

it('says nothing of it where the browser gives all of it', async () => {
  const page = await browser.newPage();
  await page.goto(inject('address'));
  await page.getByTestId('start').waitFor();
  expect(await page.getByTestId('notice').count()).toBe(0);
});
