import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { vary } from '../../src/phrase/vary/vary';
import { leftOverWords } from '../../src/view/across/fit-words';
import { phraseOf } from '../phrase/phrase-of';
import { connectKit, goTo, openApp, play } from './page/app';
import { tabTo, writeOver } from './page/by-keyboard';
import { launchChromium } from './page/launch';

const PARTIAL_SECONDS = 60 / 90 / 4;

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

const layerNames = (page: Page) =>
  page
    .getByTestId('layer')
    .evaluateAll((layers) =>
      layers.map((layer) => layer.querySelector('button')!.textContent.trim().replace(/\s+/g, ' ')),
    );

const rowOf = (page: Page, name: string) =>
  page
    .getByTestId('position-grid')
    .evaluate(
      (grid, wanted) =>
        [...grid.querySelectorAll('tr')]
          .filter((row) => row.querySelector('th')!.textContent === wanted)
          .flatMap((row) => [...row.querySelectorAll('td')].map((cell) => cell.textContent.trim())),
      name,
    );

async function addLayer(page: Page) {
  await tabTo(page, 'Add as a new layer');
  await page.keyboard.press('Enter');
}

/** Seven notes, five layers: a sticking, accents, toms, a pickup, ghosts. */
async function writeSevenPiles(page: Page) {
  const { keyboard } = page;
  await tabTo(page, 'Phrases');
  await keyboard.press('Enter');
  await tabTo(page, 'Write a phrase');
  await keyboard.press('Enter');
  await page.getByTestId('kept-state').waitFor();
  await tabTo(page, 'Title');
  await writeOver(page, 'Seven Piles');
  await tabTo(page, 'Grouping');
  await writeOver(page, 'R L R R L L K');

  // Every right hand except the first of the cycle.
  await tabTo(page, 'every: limb');
  await keyboard.type('right');
  await tabTo(page, 'leave some of them out');
  await keyboard.press('Space');
  await tabTo(page, 'stroke of its limb');
  await keyboard.type('1');
  await tabTo(page, 'Level');
  await keyboard.type('accent');
  await addLayer(page);

  // The third and fourth stroke, chosen on the score line.
  await tabTo(page, /position 1\b/, 'Shift+Tab');
  await keyboard.press('ArrowRight');
  await keyboard.press('ArrowRight');
  await keyboard.press('Space');
  await keyboard.press('ArrowRight');
  await keyboard.press('Space');
  await tabTo(page, 'Voice');
  await keyboard.type('floor tom');
  await addLayer(page);

  await tabTo(page, 'Change', 'Shift+Tab');
  for (let i = 0; i < 3; i++) await keyboard.press('ArrowDown');
  await addLayer(page);

  await tabTo(page, 'Change', 'Shift+Tab');
  await keyboard.press('Home');
  await tabTo(page, 'every: limb', 'Shift+Tab');
  await keyboard.type('left');
  await tabTo(page, 'Level');
  await keyboard.type('ghost');
  await addLayer(page);
}

describe.concurrent('the phrase workshop, without a pointer', () => {
  it('writes a phrase of seven notes and five layers, hears it, fits it to eight bars, varies and practises it', async () => {
    const { page, faults, close } = await openApp(browser);
    const { keyboard } = page;
    await page.evaluate(() => {
      for (const kind of ['pointerdown', 'mousedown', 'touchstart'])
        addEventListener(kind, () => reportError(new Error(`a pointer was used: ${kind}`)), true);
    });
    await writeSevenPiles(page);
    expect(await layerNames(page)).toEqual([
      '1 Sticking',
      '2 Accents',
      '3 Floor tom',
      '4 Pickup',
      '5 Ghosts',
    ]);
    expect(await rowOf(page, 'sticking')).toEqual(['R', 'L', 'R', 'R', 'L', 'L', 'K']);
    expect(await rowOf(page, 'voice')).toEqual([
      'snare',
      'snare',
      'floor tom',
      'floor tom',
      'snare',
      'snare',
      'bass drum',
    ]);
    expect(await rowOf(page, 'level')).toEqual([
      'tap',
      'ghost',
      'accent',
      'accent',
      'ghost',
      'ghost',
      'tap',
    ]);

    await tabTo(page, 'Hear all layers, Seven Piles', 'Shift+Tab');
    await keyboard.press('Enter');
    await page.waitForFunction(() => window.heardClicks.queued >= 9);
    const at = await page.evaluate(() =>
      Array.from({ length: 9 }, (_, k) => window.heardClicks.atSeconds(k)),
    );
    // A pickup of one partial, then the seven sixteenths of the cycle without a gap: to 3 ms, since the map between
    // the clocks settles while the first ones are placed.
    at.forEach((seconds, k) =>
      expect(Math.abs(seconds - at[0]! - k * PARTIAL_SECONDS)).toBeLessThan(0.003),
    );
    await keyboard.press('Enter');
    await page.getByRole('button', { name: 'Hear all layers, Seven Piles' }).waitFor();

    // 8 bars of 16 sixteenths hold 18 cycles of 7 and 2 partials: 128 = 18 * 7 + 2.
    const left = { formPartials: 128, cycles: 18, remainingPartials: 2 };
    await tabTo(page, /^Fit to a form/);
    await keyboard.press('Enter');
    await page.getByText(leftOverWords(left, 7)).waitFor();
    await tabTo(page, /^Use as a layer: Rest first/);
    await keyboard.press('Enter');
    await page.getByTestId('layer').nth(5).waitFor();
    expect((await layerNames(page))[5]).toBe('6 Rest first');

    await tabTo(page, 'Variations', 'Shift+Tab');
    await keyboard.press('Enter');
    await page.getByRole('heading', { level: 1, name: 'Variations of Seven Piles' }).waitFor();
    await page.getByTestId('outcome').getByTestId('keep').waitFor();
    await tabTo(page, /^Mirror the hands|^Rotate the sticking/);
    for (let i = 0; i < 5; i++) await keyboard.press('ArrowDown');
    const mirrored = vary(phraseOf({ grouping: 'R L' }), { kind: 'mirror' })!;
    await page.getByTestId('outcome').getByText(mirrored.sentence).waitFor();
    await tabTo(page, /^Keep/);
    await keyboard.press('Enter');
    await page.getByTestId('outcome').getByTestId('practise').waitFor();
    await tabTo(page, /^Practise .*/);
    await keyboard.press('Enter');
    await page.getByTestId('start').waitFor();
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toContain('Seven Piles');

    await keyboard.press('Space');
    await page.getByTestId('status').getByText('Playing').waitFor();
    await page
      .locator('tr[data-note="7"]:not([data-verdict="not played yet"])')
      .waitFor({ state: 'attached' });
    await keyboard.press('Escape');
    await page.getByTestId('status').getByText('Stopped').waitFor();
    expect(faults).toEqual([]);
    await close();
  });

  it('takes a phrase back to its beginning, makes it again, and has it after a reload', async () => {
    const { page, faults, close } = await openApp(browser);
    const { keyboard } = page;
    await writeSevenPiles(page);
    const written = await layerNames(page);
    const undo = page.getByRole('button', { name: 'Undo', exact: true });
    await tabTo(page, 'Undo');
    for (let i = 0; i < 100 && (await undo.isEnabled()); i++) await keyboard.press('Enter');
    expect(await layerNames(page)).toEqual(['1 Sticking']);
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('New phrase');
    for (let i = 0; i < 100 && !(await undo.evaluate((one) => one === document.activeElement)); i++)
      await keyboard.press('Enter');
    expect(await layerNames(page)).toEqual(written);
    await tabTo(page, 'Title');
    await writeOver(page, 'Seven Piles at dusk');
    await page.reload();
    await page.getByTestId('layer').nth(4).waitFor();
    expect(await layerNames(page)).toEqual(written);
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('Seven Piles at dusk');
    expect(faults).toEqual([]);
    await close();
  });

  it('writes down a grouping that is played on the kit', async () => {
    const { page, faults, close } = await openApp(browser);
    const { keyboard } = page;
    await connectKit(page);
    await goTo(page, 'Phrases');
    await tabTo(page, 'Write a phrase');
    await keyboard.press('Enter');
    await tabTo(page, /^Play the grouping/);
    await keyboard.press('Enter');
    await tabTo(page, 'Listen');
    await keyboard.press('Enter');
    await page.getByTestId('grouping-listen').getByText('Stop').waitFor();
    const fromMs = (await page.evaluate(() => performance.now())) + 100;
    const [snare, bassDrum, hiHatFoot] = [38, 36, 44];
    const notes = [snare, snare, bassDrum, hiHatFoot, undefined, snare, bassDrum];
    await play(
      page,
      notes.flatMap((note, i) =>
        note === undefined ? [] : [{ atMs: fromMs + i * 350, note, velocity: 80 }],
      ),
    );
    await page.getByTestId('grouping-take').waitFor();
    await page.getByTestId('grouping-listen').focus();
    await tabTo(page, 'Use it');
    await keyboard.press('Enter');
    const grouping = page.getByLabel('Grouping', { exact: true });
    expect(await grouping.inputValue()).toBe('R L K F - R K');
    expect(await grouping.evaluate((one) => one === document.activeElement)).toBe(true);
    expect(await rowOf(page, 'sticking')).toEqual(['R', 'L', 'K', 'F', '-', 'R', 'K']);
    expect(faults).toEqual([]);
    await close();
  });

  it('keeps what was typed a moment before the page was reloaded', async () => {
    const { page, faults, close } = await openApp(browser);
    await tabTo(page, 'Phrases');
    await page.keyboard.press('Enter');
    await tabTo(page, 'Write a phrase');
    await page.keyboard.press('Enter');
    await page.getByTestId('kept-state').waitFor();
    await tabTo(page, 'Grouping');
    await writeOver(page, 'R L K F Q');
    await page.reload();
    await tabTo(page, 'Phrases');
    await page.keyboard.press('Enter');
    await tabTo(page, 'New phrase');
    await page.keyboard.press('Enter');
    await page.getByTestId('faults').getByText('"Q"').waitFor();
    const grouping = page.getByLabel('Grouping', { exact: true });
    expect(await grouping.inputValue()).toBe('R L K F Q');
    expect(await grouping.getAttribute('aria-invalid')).toBe('true');
    expect(faults).toEqual([]);
    await close();
  });
});
