import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { wording, type FindingCode } from '../../src/coach/wording';
import { unbroken } from '../../src/view/figures/unbroken';
import { SAMPLES } from '../coach/longest-sentences';
import { GUIDE_FOLDER, pictureGuide } from './guide-pictures';
import { launchChromium } from './page/launch';
import { simulatedPlayerScript } from './page/simulated-player';
import { serveApp } from './page/serve-app';

/** The picture of the README in both themes: the app itself, played by its simulated player. */
const README_FOLDER = fileURLToPath(new URL('../../.pictures/', import.meta.url));
const PHRASE = 'Quay Steps';
/** Long enough for the figures of several cycles. */
const PLAYING_MS = 21_000;
/** Long enough for a sentence after the take. */
const SHORT_MS = 9_000;

const THEMES = ['light', 'dark'] as const;
type Theme = (typeof THEMES)[number];
/** At the desk and on a phone. */
const SIZES = [
  { width: 1440, height: 900 },
  { width: 390, height: 844 },
];

async function startPractice(page: Page, address: string) {
  await page.addInitScript(simulatedPlayerScript());
  await page.goto(`${address}#/phrases`);
  await page.getByRole('link', { name: PHRASE }).click();
  await page.getByTestId('practise-this').click();
  await page.getByTestId('layer-step').last().click();
  await page.getByTestId('start').click();
}

async function picturePractice(browser: Browser, address: string, colorScheme: Theme) {
  const page = await browser.newPage({ viewport: SIZES[0]!, colorScheme });
  await startPractice(page, address);
  await page.waitForTimeout(PLAYING_MS);
  await page.screenshot({ path: `${README_FOLDER}practise-${colorScheme}.png` });
  await page.close();
}

const SENTENCES = Object.entries(SAMPLES).map(([code, facts]) => ({
  code,
  ...wording(code as FindingCode, facts as never),
}));

/** Every sentence of the coach at its longest, where it stands while and after a take and on the take's page. */
async function pictureSentences(
  browser: Browser,
  address: string,
  folder: string,
  colorScheme: Theme,
) {
  for (const viewport of SIZES) {
    const page = await browser.newPage({ viewport, colorScheme });
    const pictured = (where: string) =>
      pictureEach(page, folder, `${where}-${colorScheme}-${viewport.width}`);
    await startPractice(page, address);
    await page.waitForTimeout(SHORT_MS);
    await pictured('run');
    await page.getByTestId('start').click();
    await page.getByTestId('last-take').waitFor();
    await pictured('after');
    await page.getByTestId('last-take').getByRole('link').first().click();
    await page.getByTestId('finding').first().waitFor();
    await pictured('take');
    await page.close();
  }
}

/** The whole screen with the first, and of each what is around it. */
async function pictureEach(page: Page, folder: string, name: string) {
  for (const [i, { code, text, advice, detail }] of SENTENCES.entries()) {
    const box = await page
      .getByTestId('finding')
      .first()
      .evaluate(putSentence, { text: unbroken(text), advice, detail });
    if (i === 0) await page.screenshot({ path: join(folder, `${name}.png`) });
    const { width } = page.viewportSize()!;
    const clip = { x: 0, y: Math.max(0, box.y - 16), width, height: box.height + 32 };
    await page.screenshot({
      path: join(folder, `${name}-${code.replaceAll(' ', '-')}.png`),
      clip,
      fullPage: true,
    });
  }
}

/** Runs in the page: other words in the place of a finding; where it lies, in CSS pixels of the whole page. */
function putSentence(
  finding: Element,
  { text, advice, detail }: { text: string; advice: string; detail: string | undefined },
) {
  const next = finding.nextElementSibling;
  finding.textContent = text;
  if (next) next.textContent = advice;
  const numbers = document.querySelector('[data-testid="finding-detail"]');
  if (numbers) {
    numbers.textContent = detail ?? '';
    numbers.closest('details')!.open = true;
  }
  const { top } = finding.getBoundingClientRect();
  const { bottom } = (next ?? finding).parentElement!.getBoundingClientRect();
  return { y: top + window.scrollY, height: Math.min(bottom - top, 220) };
}

/** `npm run pictures -- [FOLDER]`: the README's and the guide's; or, into a folder, one of every sentence the coach can say. */
export async function main([folder]: readonly string[]): Promise<void> {
  mkdirSync(folder ?? README_FOLDER, { recursive: true });
  const app = await serveApp();
  const browser = await launchChromium();
  for (const theme of THEMES)
    await (folder === undefined
      ? picturePractice(browser, app.address, theme)
      : pictureSentences(browser, app.address, folder, theme));
  if (folder === undefined) await pictureGuide(browser, app.address);
  await browser.close();
  await app.close();
  process.stdout.write(
    `Pictures, light and dark, are in ${folder ?? `${README_FOLDER} and ${GUIDE_FOLDER}`}\n`,
  );
}
