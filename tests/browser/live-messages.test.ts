import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openApp, practisePhrase } from './page/app';
import { launchChromium } from './page/launch';

declare global {
  interface Window {
    /** What a screen reader has been given to say, and when. */
    told: { readonly atMs: number; readonly text: string }[];
  }
}

/** A message in the longer of a bar and 4 s at most: from the brief of the app. */
const LEAST_GAP_MS = 4000;
/** Timers of a busy page come late, not early. */
const TIMER_MS = 50;
const PLAYED_MS = 20_000;

/** Cycles of half a second over a bar of four beats. */
const SHORT_CYCLES = {
  meter: '4/4',
  subdivision: 4,
  grouping: 'R L K',
  layers: [
    { name: 'Sticking' },
    { name: 'Accents', changes: [{ where: { limb: 'R' }, set: { level: 'accent' } }] },
  ],
};

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

/** In the page: writes down whatever appears in a live region, wherever on the page that is. */
const listen = () => {
  const LIVE =
    ':is([aria-live=polite], [aria-live=assertive], [role=status], [role=alert], output):not([aria-live=off])';
  window.told = [];
  new MutationObserver((changes) => {
    const regions = new Set(
      changes.flatMap(({ target, addedNodes }) => {
        const from = target instanceof Element ? target : target.parentElement;
        const added = [...addedNodes].filter((node) => node instanceof Element);
        return [from?.closest(LIVE), ...added.flatMap((one) => [...one.querySelectorAll(LIVE)])];
      }),
    );
    for (const region of regions) {
      const text = region?.textContent?.trim();
      if (text) window.told.push({ atMs: performance.now(), text });
    }
  }).observe(document, { subtree: true, childList: true, characterData: true });
};

it.concurrent.each([
  ['fast, where a bar is shorter than 4 s', 180, (60_000 / 180) * 4],
  ['slow, where a bar is longer', 45, (60_000 / 45) * 4],
])('little is read aloud while somebody plays %s', async (_, tempoBpm, barMs) => {
  const { page, faults, close } = await openApp(browser);
  const phrase = { title: 'Short Line', tempoBpm, ...SHORT_CYCLES };
  await practisePhrase(page, phrase);
  await page.getByTestId('start').click();
  await page.getByTestId('status').getByText('Playing').waitFor();
  await page.evaluate(listen);
  await page.waitForTimeout(PLAYED_MS);
  const told = await page.evaluate(() => window.told);
  await page.getByTestId('start').click();

  expect(told.length).toBeGreaterThan(1);
  expect(told.some(({ text }) => /as written/.test(text))).toBe(true);
  const gaps = told.slice(1).map(({ atMs, text }, i) => ({ text, ms: atMs - told[i]!.atMs }));
  expect(gaps.filter(({ ms }) => ms < Math.max(LEAST_GAP_MS, barMs) - TIMER_MS)).toEqual([]);
  expect(faults).toEqual([]);
  await close();
});
