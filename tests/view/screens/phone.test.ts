import { afterEach, describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { ROUTES } from '../../routes';
import { mountShell } from '../mount-shell';
import { fillLog } from '../sample-takes';

const TARGETS =
  'button, input, select, textarea, summary, nav a, a.button, a.way, [role="button"]:not(g)';

/** WCAG 2.2 SC 2.5.8: 24 by 24 CSS pixels, its label and all; links in a sentence are left out there, too. */
function tooSmall(): string[] {
  return [...document.querySelectorAll<HTMLElement>(TARGETS)].flatMap((element) => {
    // A figure is pressed wherever it is struck, its number too.
    const area = element.closest('label, div:has(> dt > .term)') ?? element;
    const { width, height } = area.getBoundingClientRect();
    const isThere = width > 1 && height > 1;
    return isThere && (width < 24 || height < 24)
      ? [`${element.textContent?.trim() || element.outerHTML} ${width} by ${height}`]
      : [];
  });
}

const nextFrame = () => new Promise((resolve) => requestAnimationFrame(resolve));

describe('on a phone', () => {
  afterEach(() => page.viewport(1440, 900));

  it.each(ROUTES)(
    '%s is no wider than 320 px with all of it open, and fit for a finger',
    async (route) => {
      await page.viewport(320, 640);
      await mountShell(`#${route}`, async (parts) => void (await fillLog(parts)));
      await expect.element(page.getByRole('heading', { level: 1 }).first()).toBeInTheDocument();
      await nextFrame();
      for (const details of document.querySelectorAll('details')) details.open = true;
      await nextFrame();
      // What comes later may stand beside what it takes the place of for a moment.
      await expect.poll(() => document.documentElement.scrollWidth).toBeLessThanOrEqual(320);
      expect(tooSmall()).toEqual([]);
    },
  );

  it('the log has the figures of a take in sight', async () => {
    for (const width of [320, 390]) {
      await page.viewport(width, 844);
      await mountShell('#log', async (parts) => void (await fillLog(parts)));
      const take = page.getByTestId('take-row').first();
      await expect.element(take).toBeVisible();
      expect(take.element().textContent.replace(/\s+/g, ' ').trim()).toMatch(
        /^21 Nov 2026.* Quay Steps 5 Ghosts passed · 88 bpm · 0:12 · 73 notes/,
      );
      const figures = [...take.element().querySelectorAll('dl > div')].map((figure) => {
        const { left, right } = figure.getBoundingClientRect();
        expect(left).toBeGreaterThanOrEqual(0);
        expect(right).toBeLessThanOrEqual(width);
        return [...figure.children].map(({ textContent }) => textContent);
      });
      expect(figures).toEqual([
        ['as written, %', '100'],
        ['offset, ms', '0.0'],
        ['spread, ms', '0.0'],
        ['contrast, dB', '24.1'],
      ]);
    }
  });

  it('the composer’s score line stands on one line of a third of the screen at most', async () => {
    await page.viewport(390, 844);
    await mountShell('#compose/quay-steps');
    const line = page.getByTestId('score-line');
    await expect.poll(() => line.element().querySelectorAll('svg').length).toBe(1);
    const staff = line.element().closest('.staff')!.getBoundingClientRect();
    expect(staff.height).toBeLessThan(844 / 3);
    expect(line.element().scrollWidth).toBeGreaterThan(line.element().clientWidth);
  });
});
