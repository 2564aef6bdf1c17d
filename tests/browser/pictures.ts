import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';
import { launchChromium } from './page/launch';
import { simulatedPlayerScript } from './page/simulated-player';
import { serveApp } from './page/serve-app';

/** The picture of the README in both themes: the app itself, played by its simulated player. */
const FOLDER = fileURLToPath(new URL('../../.pictures/', import.meta.url));
const PHRASE = 'Quay Steps';
/** Long enough for the figures of several cycles. */
const PLAYING_MS = 21_000;

async function picturePractice(browser: Browser, address: string, colorScheme: 'light' | 'dark') {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, colorScheme });
  await page.addInitScript(simulatedPlayerScript());
  await page.goto(`${address}#/phrases`);
  await page.getByRole('link', { name: PHRASE }).click();
  await page.getByTestId('practise-this').click();
  await page.getByTestId('layer-step').last().click();
  await page.getByTestId('start').click();
  await page.waitForTimeout(PLAYING_MS);
  await page.screenshot({ path: `${FOLDER}practise-${colorScheme}.png` });
  await page.close();
}

mkdirSync(FOLDER, { recursive: true });
const app = await serveApp();
const browser = await launchChromium();
await picturePractice(browser, app.address, 'light');
await picturePractice(browser, app.address, 'dark');
await browser.close();
await app.close();
process.stdout.write(`The README's picture, light and dark, is in ${FOLDER}\n`);
