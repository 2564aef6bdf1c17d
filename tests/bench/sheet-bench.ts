import { equal } from 'node:assert/strict';
import type { Page } from 'playwright-core';
import { launchChromium } from '../browser/page/launch';
import { serveApp } from '../browser/page/serve-app';
import { duration, p50, type BenchRow } from './bench-row';

const OPENED = 5;
const FIRST_AIM_MS = 3000;
const NEXT_AIM_MS = 600;
/** Five bars of sixteenths in the first of its layers. */
const PHRASE = 'quay-steps';
const BARS = 5;

/** In the page: presses something and waits until a sheet has come of it, ms on the page's clock. */
const timeToSheet = async (pressed: string): Promise<number> => {
  const isDrawn = () =>
    [...document.querySelectorAll('button')].some(
      (button) => button.textContent === 'Print' && !button.disabled,
    );
  const frame = () => new Promise((painted) => requestAnimationFrame(painted));
  const from = performance.now();
  document.querySelector<HTMLElement>(pressed)!.click();
  await frame();
  while (!isDrawn()) await frame();
  await frame();
  return performance.now() - from;
};

async function opened(page: Page): Promise<{ first: number; next: number }> {
  await page.waitForFunction(() => performance.getEntriesByName('all fetched').length > 0);
  const first = await page.evaluate(timeToSheet, `a[href="#sheet/${PHRASE}"]`);
  equal(await page.locator('.measure').count(), BARS);
  equal(await page.locator('text.count, text.beat').count(), BARS * 16);
  const next = await page.evaluate(timeToSheet, 'input[value="Letter"]');
  equal(await page.locator('.measure').count(), BARS);
  return { first, next };
}

/** A layer of five bars on paper: the first sheet of a visit, and the next one. */
export async function sheetRows(): Promise<BenchRow[]> {
  const app = await serveApp();
  const took: { first: number; next: number }[] = [];
  try {
    for (let time = 0; time < OPENED; time++) {
      const browser = await launchChromium();
      try {
        const page = await browser.newPage();
        // tsx leaves calls of this helper in functions; here their text goes into a page.
        await page.addInitScript('globalThis.__name = (one) => one');
        const oneLayer = { layers: 'one', paper: 'A4', size: 'desk' };
        const choices = { ...oneLayer, hasStickings: true, hasCounts: true };
        await page.addInitScript(
          `localStorage.setItem('layered-phrases.1.sheet', '${JSON.stringify(choices)}')`,
        );
        await page.goto(`${app.address}#practise`);
        took.push(await opened(page));
      } finally {
        await browser.close();
      }
    }
  } finally {
    await app.close();
  }
  const row = (name: string, values: number[], aimMs: number): BenchRow => ({
    name: `${name}, median of ${OPENED}`,
    asserted: `${BARS} bars and ${BARS * 16} counts drawn`,
    p50: duration(p50(values)),
    tail: `longest ${duration(Math.max(...values))}`,
    aim: `p50 < ${duration(aimMs)}`,
    met: p50(values) < aimMs,
    note: 'From the press to the frame that shows it; the engraver has been fetched before, as it is when the page is idle.',
  });
  return [
    row(
      `first sheet of ${BARS} bars`,
      took.map(({ first }) => first),
      FIRST_AIM_MS,
    ),
    row(
      `next sheet of ${BARS} bars`,
      took.map(({ next }) => next),
      NEXT_AIM_MS,
    ),
  ];
}
