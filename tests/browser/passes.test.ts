import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { connectKit, goTo, openApp, play, practisePhrase, startPlaying } from './page/app';
import { launchChromium } from './page/launch';

/** Eighths at 240: a partial is 125 ms, a cycle a bar of one second; 55 notes without a fault are through in 7. */
const PHRASE = {
  title: 'Nine Buoys',
  meter: '4/4',
  tempoBpm: 240,
  subdivision: 2,
  grouping: 'R L R L R L R L',
  layers: [
    { name: 'Sticking' },
    { name: 'Accents', changes: [{ where: { positions: [1] }, set: { level: 'accent' } }] },
  ],
};
const PARTIAL_MS = 125;

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

it('a take passes two layers, one of them by itself, and a reload knows both', async () => {
  const { page, faults, close } = await openApp(browser);
  await connectKit(page);
  await practisePhrase(page, PHRASE);
  const originMs = await startPlaying(page);
  const strokes = Array.from({ length: 30 * 8 }, (_, i) => ({
    atMs: originMs + i * PARTIAL_MS,
    note: 38,
    velocity: i % 8 === 0 ? 112 : 70,
  }));
  // More than it takes; the reload ends them.
  void play(page, strokes).catch(() => undefined);
  const passed = page.getByTestId('passed');
  await passed.getByText('Passed: Sticking.').waitFor();
  const ask = page.getByTestId('ask-to-move-on');
  await ask.getByRole('button', { name: 'Yes' }).click();
  await ask.waitFor({ state: 'detached' });
  const step = page.getByTestId('layer-step').nth(1);
  const words = await step.textContent();
  const bar = Number(/from bar (\d+)/.exec(words ?? '')?.[1]);
  await page.getByTestId('passed').getByText('Passed: Accents.').waitFor();
  await page.getByTestId('start').click();

  await page.reload();
  const steps = page.getByTestId('layer-step');
  await steps.nth(0).getByText('passed at 240').waitFor();
  await steps.nth(1).getByText('passed at 240').waitFor();
  await goTo(page, 'Phrases');
  await page.getByTestId('phrase-progress').getByText('240, 240').waitFor();
  await goTo(page, 'Log');
  const row = page.getByTestId('take-row').first();
  await row.getByText('1, 2 passed').waitFor();
  await row.getByRole('link').click();
  const trials = page.getByTestId('trial-row');
  // The bar that was announced is the one it came at.
  await trials.nth(1).getByText(`${bar} to`).waitFor();
  await trials.nth(1).getByRole('button', { name: 'Do not count it' }).click();
  await trials.nth(1).getByRole('button', { name: 'Count it again' }).waitFor();
  await goTo(page, 'Practise');
  await steps.nth(1).getByText('passed at').waitFor({ state: 'detached' });
  await steps.nth(0).getByText('passed at 240').waitFor();
  expect(faults).toEqual([]);
  await close();
}, 90_000);
