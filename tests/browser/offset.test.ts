import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { chance } from '../../src/time/chance';
import { connectKit, goTo, openApp, practisePhrase, tableRows } from './page/app';
import { playToClicks } from './page/heard-clicks';
import { launchChromium } from './page/launch';
import { numbersIn } from './page/numbers-in';

/** Quarters at 100: every note falls on a click. */
const PHRASE = {
  title: 'Harbour Bell',
  meter: '4/4',
  tempoBpm: 100,
  subdivision: 1,
  grouping: 'R L R L',
  layers: [{ name: 'Sticking' }],
};
/** Later than the tolerance of 35 ms, so that every stroke would be told late. */
const DELAY_MS = 42;
const SPREAD_MS = 15;
const STROKES = 40;
const SEED = 20;

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

/** So many ms with the given mean and standard deviation exactly, scattered as a normal variable. */
function scattered(count: number, mean: number, deviation: number, seed: number): number[] {
  const { normal } = chance(seed);
  const raw = Array.from({ length: count }, () => normal());
  const middle = raw.reduce((sum, x) => sum + x, 0) / count;
  const width = Math.sqrt(raw.reduce((sum, x) => sum + (x - middle) ** 2, 0) / (count - 1));
  return raw.map((x) => mean + ((x - middle) / width) * deviation);
}

async function toOffset(page: Page) {
  await goTo(page, 'Kit');
  await page.getByTestId('to-offset').click();
  await page.getByRole('heading', { level: 1, name: 'Offset of the rig' }).waitFor();
}

describe('the offset of a rig', () => {
  it(`is found from playing with a known delay, kept, and taken off the next take (seed ${SEED})`, async () => {
    const { page, faults, close } = await openApp(browser);
    await connectKit(page);
    await toOffset(page);
    await page.getByLabel(/from playing/).check();
    await page.getByTestId('played-begin').click();
    await playToClicks(page, 0, scattered(STROKES, DELAY_MS, SPREAD_MS, SEED));
    await page.getByRole('button', { name: 'Work it out now' }).click();
    const told = await page.getByTestId('played-state').textContent();
    const [together] = numbersIn(told!);
    const figures = numbersIn((await page.getByTestId('played-figures').textContent())!);
    const [, lower, upper, strokes, spread] = figures;
    expect(lower!).toBeLessThanOrEqual(DELAY_MS);
    expect(upper!).toBeGreaterThanOrEqual(DELAY_MS);
    expect(together!).toBeGreaterThan(lower!);
    // Four are warm-up; 1.96 · 15/√36 is ±4.9 ms.
    expect(strokes!).toBeGreaterThanOrEqual(STROKES - 6);
    expect(upper! - lower!).toBeLessThan(14);
    expect(Math.abs(spread! - SPREAD_MS)).toBeLessThan(5);

    await page.getByTestId('played-keep').click();
    await page.getByTestId('forget-rig').waitFor();
    await practisePhrase(page, PHRASE);
    const [inForce] = numbersIn((await page.getByTestId('rig-line').textContent())!);
    expect(Math.abs(inForce! - together!)).toBeLessThanOrEqual(0.55);

    const before = await page.evaluate(() => window.heardClicks.queued);
    await page.getByTestId('start').click();
    await playToClicks(page, before + 4, scattered(12, DELAY_MS, 5, SEED + 1));
    await page
      .locator('tr[data-note="11"]:not([data-verdict="not played yet"])')
      .waitFor({ state: 'attached' });
    await page.getByTestId('start').click();
    const rows = (await tableRows(page)).slice(0, 12);
    expect(rows.map(({ verdict }) => verdict)).toEqual(Array<string>(12).fill('in time'));
    const mean = rows.reduce((sum, { offsetMs }) => sum + offsetMs!, 0) / rows.length;
    // What was told is what was taken off: the rest is how well two readings of the clocks agree.
    expect(Math.abs(mean - (DELAY_MS - together!))).toBeLessThan(5);

    await page.reload({ waitUntil: 'networkidle' });
    const [line] = numbersIn((await page.getByTestId('rig-line').textContent())!);
    // In whole milliseconds there, to a tenth where it was told first.
    expect(Math.abs(line! - together!)).toBeLessThanOrEqual(0.55);
    await goTo(page, 'Log');
    await page.getByTestId('take-row').first().getByRole('link').first().click();
    await page.getByTestId('lane-table').waitFor({ state: 'attached' });
    expect((await tableRows(page)).slice(0, 12)).toEqual(rows);
    expect(faults).toEqual([]);
    await close();
  });
});
