import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { fakeMidiScript } from '../midi/fake-midi-access';
import { ROUTES } from '../routes';
import { launchChromium } from './page/launch';
import { simulatedPlayerScript } from './page/simulated-player';

/** Farther than any page has places to stop at. */
const MOST_STEPS = 600;

let browser: Browser;
let page: Page;
beforeAll(async () => {
  browser = await launchChromium();
  page = await browser.newPage({ viewport: { width: 1024, height: 768 } });
  await page.addInitScript(fakeMidiScript());
  await page.addInitScript(simulatedPlayerScript());
});
afterAll(() => browser.close());

/** In the page: everything unfolded, and a number on all that can be worked, in the order of the page. */
function markControls(): number {
  for (const details of document.querySelectorAll('details')) details.open = true;
  const named = new Set<string>();
  const all = [
    ...document.querySelectorAll<HTMLElement | SVGElement>(
      'a[href], button, input, select, textarea, summary, [tabindex="0"]',
    ),
  ].filter((one) => {
    if (one.matches(':disabled, [tabindex="-1"]') || !one.checkVisibility()) return false;
    // Of a group of radio buttons one takes the focus: the one that is chosen, or the first.
    if (!(one instanceof HTMLInputElement) || one.type !== 'radio') return true;
    const group = [...document.querySelectorAll<HTMLInputElement>('input[type=radio]')].filter(
      ({ name }) => name === one.name,
    );
    if (group.some(({ checked }) => checked)) return one.checked;
    if (named.has(one.name)) return false;
    named.add(one.name);
    return true;
  });
  for (const [i, one] of all.entries()) one.dataset['stop'] = String(i);
  return all.length;
}

interface Stop {
  /** Its number, or undefined on what has none. */
  readonly stop: string | undefined;
  readonly name: string;
  /** What of it cannot be seen: its ring, whole or in part, or all of it, since something lies over it. */
  readonly hidden: string;
}

/** In the page: what has the focus; undefined where nothing has, which is the page's end. */
function focused(): Stop | undefined {
  const element = document.activeElement as HTMLElement | null;
  if (!element || element === document.body || element === document.documentElement)
    return undefined;
  // A note of a score line has its ring drawn, all others the outline.
  const zone = element.querySelector('.zone');
  const { outlineStyle, outlineWidth, outlineOffset } = getComputedStyle(element);
  const { stroke, strokeWidth } = getComputedStyle(zone ?? element);
  const hasRing =
    (outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2) ||
    (zone !== null && stroke !== 'none' && Number.parseFloat(strokeWidth) >= 2);
  // Words of a sentence may go over two lines.
  const { left, top, width, height } = element.getClientRects()[0]!;
  const seen = [0.1, 0.5, 0.9].some((share) => {
    const over = document.elementFromPoint(left + width * share, top + height / 2);
    return over !== null && (element.contains(over) || over.contains(element));
  });
  // How far the ring reaches over all that its frame, or the page, can be scrolled to, CSS pixels.
  let frame = element.parentElement!;
  const isOpen = ({ overflowX, overflowY }: CSSStyleDeclaration) =>
    overflowX === 'visible' && overflowY === 'visible';
  while (frame.parentElement && isOpen(getComputedStyle(frame))) frame = frame.parentElement;
  const isPage = frame === document.documentElement;
  const box = frame.getBoundingClientRect();
  const fromLeft = left - box.left - frame.clientLeft + (isPage ? 0 : frame.scrollLeft);
  const fromTop = top - box.top - frame.clientTop + (isPage ? 0 : frame.scrollTop);
  const ring = Number.parseFloat(outlineWidth) + Number.parseFloat(outlineOffset);
  const over = Math.max(
    -fromLeft,
    -fromTop,
    fromLeft + width - frame.scrollWidth,
    fromTop + height - frame.scrollHeight,
  );
  const isCut = zone === null && over + ring > 0.6;
  return {
    stop: element.dataset['stop'],
    name: `${element.tagName} ${element.ariaLabel ?? element.textContent}`.slice(0, 60),
    hidden: !seen ? 'covered' : !hasRing ? 'no ring' : isCut ? 'ring cut' : '',
  };
}

/** Every place from the top of the page to its end, by one key. */
async function walk(key: 'Tab' | 'Shift+Tab'): Promise<Stop[]> {
  const stops: Stop[] = [];
  for (let i = 0; i < MOST_STEPS; i++) {
    await page.keyboard.press(key);
    const stop = await page.evaluate(focused);
    // A browser without a frame of its own may go round without a stop between.
    if (!stop || stops.some((one) => one.stop === stop.stop && stop.stop !== undefined))
      return stops;
    stops.push(stop);
  }
  throw new Error(`${MOST_STEPS} times ${key} do not leave the page.`);
}

describe('by keyboard alone', () => {
  it.each(ROUTES)(
    'all of %s is reached in its order, seen where it is, and left again',
    async (route) => {
      await page.goto(`${inject('address')}#${route}`);
      await page.reload({ waitUntil: 'networkidle' });
      await page.getByRole('heading', { level: 1 }).first().waitFor();
      const count = await page.evaluate(markControls);
      expect(count).toBeGreaterThan(5);
      const down = await walk('Tab');
      const numbers = down.flatMap(({ stop }) => (stop === undefined ? [] : [Number(stop)]));
      const missing = Array.from({ length: count }, (_, i) => i).filter(
        (i) => !numbers.includes(i),
      );
      const names = await page.evaluate(
        (numbers) =>
          numbers.map(
            (i) => document.querySelector(`[data-stop="${i}"]`)?.outerHTML.slice(0, 120) ?? '',
          ),
        missing,
      );
      expect(names).toEqual([]);
      expect(numbers).toEqual(numbers.toSorted((a, b) => a - b));
      expect(down.filter(({ hidden }) => hidden !== '')).toEqual([]);
      // What only scrolls, which the browser itself makes a stop, may have come meanwhile.
      const up = (await walk('Shift+Tab')).flatMap(({ stop }) => stop ?? []);
      expect(up.map(Number)).toEqual(numbers.toReversed());
    },
  );
});
