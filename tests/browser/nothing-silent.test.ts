import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { MIDI_STATES } from '../../src/midi/midi-problems';
import {
  connectKit,
  goTo,
  openApp,
  play,
  practisePhrase,
  settled,
  startPlaying,
  tableRows,
} from './page/app';
import { launchChromium } from './page/launch';

/** Eighths at 240: a partial is 125 ms. */
const PHRASE = {
  title: 'Nine Buoys',
  meter: '4/4',
  tempoBpm: 240,
  subdivision: 2,
  grouping: 'R L R L',
  layers: [{ name: 'Sticking' }],
};
const PARTIAL_MS = 125;
/** On no map that comes with the app. */
const UNKNOWN = 91;

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

const hasBegun = (page: Page) =>
  page
    .getByTestId('status')
    .getByText(/Counting in|Playing/)
    .waitFor();
const isStopped = (page: Page) => page.getByTestId('status').getByText('Stopped').waitFor();

describe.concurrent('nothing is silent', () => {
  it('tells a note that the map does not know, and counts its strokes once it has a voice', async ({
    expect,
  }) => {
    const { page, faults, close } = await openApp(browser);
    await connectKit(page);
    await practisePhrase(page, PHRASE);
    const strike = (atMs: number) => play(page, [{ atMs, note: 38, velocity: 64 }]);
    await strike(await page.evaluate(() => performance.now()));
    await page.getByTestId('sound-check').getByText('snare, tap, velocity 64').waitFor();

    const originMs = await startPlaying(page);
    const note = (i: number) => ({ atMs: originMs + i * PARTIAL_MS, note: UNKNOWN, velocity: 70 });
    await play(page, [4, 5, 6, 7].map(note));
    await page
      .getByTestId('finding')
      .getByText(`Note ${UNKNOWN}, struck 4 times, is not on your kit's map.`)
      .waitFor();
    await settled(page, 7);
    const verdicts = async () => (await tableRows(page)).slice(4, 8).map(({ verdict }) => verdict);
    expect(new Set(await verdicts())).toEqual(new Set(['missed']));
    await page
      .getByRole('group', { name: `Note ${UNKNOWN} is` })
      .getByRole('button', { name: 'snare', exact: true })
      .click();
    await expect.poll(verdicts).toEqual(['in time', 'in time', 'in time', 'in time']);
    await page.getByTestId('finding').getByText(`Note ${UNKNOWN}`).waitFor({ state: 'detached' });
    await hasBegun(page);
    await page.getByTestId('start').click();
    await isStopped(page);
    expect(faults).toEqual([]);
    await close();
  });

  it('stops by the space bar whatever was clicked', async () => {
    const { page, faults, close } = await openApp(browser);
    const tempo = page.getByTestId('tempo');
    await page.getByTestId('settings').locator('summary').click();
    await page.getByRole('radio', { name: '2 and 4' }).click();
    await page.keyboard.press('Space');
    await hasBegun(page);
    await page.getByTestId('layer-step').nth(1).click();
    await page.getByRole('button', { name: 'Faster' }).click();
    const bpm = await tempo.inputValue();
    await page.keyboard.press('Space');
    await isStopped(page);
    expect(await tempo.inputValue()).toBe(bpm);
    await page.keyboard.press('Space');
    await hasBegun(page);
    await page.keyboard.press('Escape');
    await isStopped(page);
    expect(faults).toEqual([]);
    await close();
  });

  it('shows on another screen what plays, and stops it there', async () => {
    const { page, faults, close } = await openApp(browser);
    const bar = page.getByTestId('playing-bar');
    await page.getByTestId('start').click();
    await goTo(page, 'Kit');
    await bar.getByText('Quay Steps').waitFor();
    await bar.getByRole('link').click();
    await hasBegun(page);
    await goTo(page, 'Log');
    await bar.getByRole('button', { name: 'Stop' }).click();
    await bar.waitFor({ state: 'detached' });
    await goTo(page, 'Practise');
    await isStopped(page);
    await page.getByTestId('start').click();
    await goTo(page, 'Phrases');
    await bar.waitFor();
    await page.keyboard.press('Escape');
    await bar.waitFor({ state: 'detached' });
    expect(faults).toEqual([]);
    await close();
  });

  it('does not start on a kit that the browser keeps away, and starts once it is there', async () => {
    const { page, faults, close } = await openApp(browser);
    await page.evaluate(() => window.fakeMidi.refuse('NotAllowedError'));
    await goTo(page, 'Kit');
    await page.getByTestId('midi-connect').click();
    await page.getByTestId('midi-state').getByText(MIDI_STATES.denied.sentence).waitFor();
    await goTo(page, 'Practise');
    await page.getByTestId('finding').getByText(MIDI_STATES.denied.sentence).waitFor();
    await page.getByTestId('start').click();
    await page.getByTestId('notice').getByText('Not started').waitFor();
    await isStopped(page);
    // On a phone, too, no message stands between the player and the other screens, or the start.
    await page.setViewportSize({ width: 390, height: 844 });
    for (const link of await page.getByRole('navigation').getByRole('link').all())
      await link.click({ trial: true, timeout: 5000 });
    await page.getByTestId('start').click({ trial: true, timeout: 5000 });
    await page.setViewportSize({ width: 1024, height: 640 });
    await page.evaluate(() => window.fakeMidi.refuse(undefined));
    await page.getByTestId('midi-connect').first().click();
    await page.getByTestId('sound-check').waitFor();
    expect(await page.getByTestId('notice').count()).toBe(0);
    await page.getByTestId('start').click();
    await hasBegun(page);
    expect(faults).toEqual([]);
    await close();
  });
});
