import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, inject, it } from 'vitest';
import { ROUTES } from '../routes';
import { launchChromium } from './page/launch';
import { simulatedPlayerScript } from './page/simulated-player';

/** The widths that are promised; the last is 1440 × 900 at twice the size. */
const SIZES = [
  [320, 640],
  [390, 844],
  [768, 1024],
  [1440, 900],
  [1920, 1080],
  [720, 450],
] as const;

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

async function openAt(width: number, height: number): Promise<Page> {
  const page = await browser.newPage({ viewport: { width, height } });
  await page.addInitScript(simulatedPlayerScript());
  return page;
}

async function show(page: Page, route: string): Promise<void> {
  await page.goto(`${inject('address')}#${route}`);
  await page.getByRole('heading', { level: 1 }).first().waitFor();
  await page.waitForLoadState('networkidle');
}

/** Everything unfolded, what reaches over the page's sides, and is not in a frame that scrolls. */
const overTheSides = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    for (const details of document.querySelectorAll('details')) details.open = true;
    const width = document.documentElement.clientWidth;
    const isFramed = (element: Element): boolean => {
      const { parentElement } = element;
      if (!parentElement) return false;
      return getComputedStyle(parentElement).overflowX !== 'visible' || isFramed(parentElement);
    };
    const wide = [...document.querySelectorAll('body *')].filter((element) => {
      const { left, right, width: own } = element.getBoundingClientRect();
      return own > 1 && (left < -1 || right > width + 1) && !isFramed(element);
    });
    scrollTo({ left: 1000 });
    const scrolled = scrollX;
    scrollTo({ left: 0 });
    return [
      ...(scrolled > 0 ? [`scrolls by ${scrolled}`] : []),
      ...wide.map(({ tagName, className, textContent }) =>
        `${tagName} ${String(className)} ${textContent ?? ''}`.slice(0, 80),
      ),
    ];
  });

describe('nothing reaches over the sides', () => {
  let page: Page;
  beforeAll(async () => {
    page = await openAt(1440, 900);
  });
  afterAll(() => page.close());

  it.each(ROUTES)('on %s', async (route) => {
    await show(page, route);
    const found: string[] = [];
    for (const [width, height] of SIZES) {
      await page.setViewportSize({ width, height });
      found.push(...(await overTheSides(page)).map((one) => `${width}: ${one}`));
    }
    expect(found).toEqual([]);
  });
});

describe.each(['light', 'dark'] as const)(
  'colours that the reader has chosen, %s',
  (colorScheme) => {
    let page: Page;
    beforeEach(async () => {
      page = await openAt(1440, 900);
      await page.emulateMedia({ forcedColors: 'active', colorScheme });
    });
    afterEach(() => page.close());

    const colourOf = (name: string) =>
      page
        .getByRole('button', { name, exact: true })
        .evaluate((button) => getComputedStyle(button).color);

    it('a button that cannot be pressed looks so', async () => {
      await show(page, 'compose');
      const undo = page.getByRole('button', { name: 'Undo', exact: true });
      expect(await undo.isDisabled()).toBe(true);
      const off = await colourOf('Undo');
      expect(await undo.evaluate((button) => getComputedStyle(button).borderTopStyle)).toBe(
        'dashed',
      );
      await page.getByLabel('Title', { exact: true }).fill('Slip');
      await expect.poll(() => undo.isEnabled()).toBe(true);
      expect(await colourOf('Undo')).not.toBe(off);
      expect(await undo.evaluate((button) => getComputedStyle(button).borderTopStyle)).toBe(
        'solid',
      );
    });

    it('what has the focus has a line round it', async () => {
      await show(page, 'phrases');
      for (let press = 0; press < 8; press++) {
        await page.keyboard.press('Tab');
        const line = await page.evaluate(() => {
          const { outlineStyle, outlineWidth, outlineColor } = getComputedStyle(
            document.activeElement!,
          );
          return { outlineStyle, outlineWidth, outlineColor };
        });
        expect(line).toMatchObject({ outlineStyle: 'solid', outlineWidth: '2px' });
        expect(line.outlineColor).not.toBe(
          await page.evaluate(() => getComputedStyle(document.body).backgroundColor),
        );
      }
    });

    it('the lane and the notes of a score stand out from the page', async () => {
      await show(page, 'practise');
      await page.getByRole('img', { name: /^Lane/ }).waitFor();
      await expect.poll(() => contrastInLane(page)).toBeGreaterThanOrEqual(7);
      await show(page, 'phrases/quay-steps');
      const glyph = page
        .getByRole('img', { name: /^Score line/ })
        .locator('text')
        .first();
      const { fill, ground } = await glyph.evaluate((element) => ({
        fill: getComputedStyle(element).fill,
        ground: getComputedStyle(document.body).backgroundColor,
      }));
      expect(fill).not.toBe(ground);
    });
  },
);

/** Of the paper and what differs from it most, by WCAG 2.2. */
const contrastInLane = (page: Page): Promise<number> =>
  page.evaluate(() => {
    const canvas = document.querySelector('canvas')!;
    const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
    const linear = (part: number) => {
      const share = part / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    };
    let least = Infinity;
    let most = 0;
    for (let i = 0; i < data.length; i += 4) {
      const luminance =
        0.2126 * linear(data[i]!) + 0.7152 * linear(data[i + 1]!) + 0.0722 * linear(data[i + 2]!);
      least = Math.min(least, luminance);
      most = Math.max(most, luminance);
    }
    return (most + 0.05) / (least + 0.05);
  });
