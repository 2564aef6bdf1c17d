import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { mountShell } from '../mount-shell';

/** The house's own rule, which is the target size of WCAG 2.2, success criterion 2.5.5 (AAA). */
const LEAST_PX = 44;
/** Words of a sentence, and cells that are edited where they stand, are as high as their line. */
const IN_LINE = 'p, li, dd, td, th, caption, [role=gridcell]';

/** How high the room is that lies behind the lines above and below, and is pressed, too. */
const heightBehind = (one: HTMLElement): number => {
  const { position, height } = getComputedStyle(one, '::before');
  return position === 'absolute' ? Number.parseFloat(height) : 0;
};

/** What is pressed and lower than that: its words and its height. */
const tooLow = () =>
  [...document.querySelectorAll<HTMLElement>('button, .button, .way, select, input, summary')]
    .filter((one) => !one.closest(IN_LINE) || !one.matches('.plain, td *'))
    .map((one) => {
      // A figure is pressed wherever it is struck, its number too.
      const area =
        one.closest('label:has(> [type=checkbox], > [type=radio])') ??
        one.closest('div:has(> dt > .term)') ??
        one;
      return { one, height: Math.max(area.getBoundingClientRect().height, heightBehind(one)) };
    })
    .filter(({ height }) => height > 0 && height < LEAST_PX)
    .map(({ one, height }) => `${one.tagName} ${one.ariaLabel ?? one.textContent} ${height}`);

describe('what is pressed is at least 44 pixels high', () => {
  const screens = [
    '#practise',
    '#phrases',
    '#phrases/quay-steps',
    '#kit',
    '#kit/offset',
    '#kit/what-it-sends',
    '#log',
    '#compose/quay-steps',
    '#vary/quay-steps',
    '#capture',
    '#help',
    '#help/what-passing-means',
  ];
  it.each(screens)('on %s', async (hash) => {
    await mountShell(hash);
    await expect.element(page.getByRole('heading', { level: 1 })).toBeVisible();
    expect(tooLow()).toEqual([]);
  });

  it.each(['#practise', '#phrases/quay-steps'])(
    'on %s above and below its line, too, where nothing else is pressed',
    async (hash) => {
      await page.viewport(1440, 900);
      await mountShell(hash);
      await expect.element(page.getByTestId('copy-link')).toBeVisible();
      for (const button of document.querySelectorAll('.in-lines button.plain')) {
        const { left, width, top, height } = button.getBoundingClientRect();
        const middle = top + height / 2;
        for (const y of [middle - LEAST_PX / 2 + 1, middle, middle + LEAST_PX / 2 - 1])
          expect(document.elementFromPoint(left + width / 2, y)).toBe(button);
      }
    },
  );
});
