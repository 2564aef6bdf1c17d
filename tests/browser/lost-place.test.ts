import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { connectKit, openApp, play, practisePhrase, startPlaying, tableRows } from './page/app';
import { startByKeyboard, tabTo } from './page/by-keyboard';
import { launchChromium } from './page/launch';

/** Eighths at 240: a partial is 125 ms, a cycle a bar of one second. */
const PHRASE = {
  title: 'Cross Current',
  meter: '4/4',
  tempoBpm: 240,
  subdivision: 2,
  grouping: 'R K L F R R K F',
  layers: [{ name: 'Sticking' }],
};
const PARTIAL_MS = 60_000 / 240 / 2;
const BAR_MS = 8 * PARTIAL_MS;
const STRUCK: Readonly<Record<string, number>> = { R: 38, L: 38, K: 36, F: 44 };
const NOTES = PHRASE.grouping.split(' ').map((limb) => STRUCK[limb]!);

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

/** The phrase from one bar (1-based) up to but not including another, so many partials late. */
const phrase = (originMs: number, fromBar: number, toBar: number, late = 0) =>
  Array.from({ length: (toBar - fromBar) * 8 }, (_, i) => ({
    atMs: originMs + (fromBar - 1) * BAR_MS + (i + late) * PARTIAL_MS,
    note: NOTES[i % 8]!,
    velocity: 80,
  }));

/** A take that is in place for three bars, and slips; bars are played as they come, until they are called off. */
async function slip(page: Page, partials: number) {
  await connectKit(page);
  await practisePhrase(page, PHRASE);
  const originMs = await startPlaying(page, () => startByKeyboard(page));
  let goesOn = true;
  const played = (async () => {
    await play(page, phrase(originMs, 1, 4));
    for (let bar = 4; goesOn; bar++) await play(page, phrase(originMs, bar, bar + 1, partials));
  })();
  // Who is early has played the first note in bar 3.
  const since = partials > 0 ? 'late since bar 4' : 'early since bar 3';
  await page.getByTestId('slip').getByText(`Slipped one eighth ${since}.`).waitFor();
  const callOff = async () => {
    goesOn = false;
    await played;
  };
  return { originMs, callOff };
}

/** What was chosen, as it is said. */
async function answer(page: Page, pattern: RegExp): Promise<string> {
  const line = page.getByTestId('slip-answer').getByText(pattern);
  await line.waitFor();
  return pattern.exec((await line.textContent())!)![1]!;
}

/** What came of the last notes of which something was said. */
const lastVerdicts = async (page: Page, count: number) => {
  const rows = await tableRows(page);
  const settled = rows.filter(({ verdict }) => verdict !== 'not played yet');
  return settled.slice(-count - 4, -4).map(({ verdict }) => verdict);
};
const IN_TIME = Array.from({ length: 16 }, () => 'in time');

describe.concurrent.each([1, -1])('a phrase that slipped by %i, by keyboard alone', (partials) => {
  it('waits for the player, who is in place from there on', async () => {
    const { page, faults, close } = await openApp(browser);
    const { callOff } = await slip(page, partials);
    expect(await page.getByTestId('gate').textContent()).toContain('find the place again');
    await page.keyboard.press('1');
    const side = partials > 0 ? 'later' : 'earlier';
    const bar = await answer(
      page,
      new RegExp(`^From bar (\\d+) beat .* the phrase waits for you, one eighth ${side}\\.$`),
    );
    await page.getByTestId('slip').waitFor({ state: 'detached' });
    await page.waitForTimeout(4 * BAR_MS);
    expect(await lastVerdicts(page, 16)).toEqual(IN_TIME);
    expect(await page.getByTestId('slip').count()).toBe(0);
    await callOff();
    await page.keyboard.press('Enter');
    await tabTo(page, 'Open this take');
    await page.keyboard.press('Enter');
    await page.getByText(`the phrase waited in bar ${bar}`).waitFor();
    expect(faults).toEqual([]);
    await close();
  }, 90_000);

  it('is begun again after a bar of click', async () => {
    const { page, faults, close } = await openApp(browser);
    const { originMs, callOff } = await slip(page, partials);
    await tabTo(page, 'Bring me back key 2', 'Shift+Tab');
    await page.keyboard.press('Enter');
    const first = await answer(
      page,
      /^A count-in at bar \d+, then the phrase from its beginning at bar (\d+)\.$/,
    );
    await callOff();
    await play(page, phrase(originMs, Number(first), Number(first) + 4));
    expect(await page.getByTestId('slip').count()).toBe(0);
    expect(await lastVerdicts(page, 16)).toEqual(IN_TIME);
    const heardMs = await page.evaluate(() =>
      Array.from({ length: window.heardClicks.queued }, (_, k) => window.heardClicks.heardMs(k)),
    );
    const countMs = originMs + (Number(first) - 2) * BAR_MS;
    const counted = heardMs.filter((at) => at > countMs - 60 && at < countMs + BAR_MS - 60);
    expect(counted).toHaveLength(4);
    expect(faults).toEqual([]);
    await close();
  }, 90_000);
});
