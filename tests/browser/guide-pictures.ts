import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Browser, Locator, Page } from 'playwright-core';
import { FIRST_PLAYERS } from '../../src/practice/inputs/players';
import { SETTINGS_PREFIX } from '../../src/store/settings-store';
import { PICTURE_SIZE } from '../../src/view/screens/help/guide/picture-size';
import type { ChapterId } from '../../src/view/shell/route';
import { fakeMidiScript } from '../midi/fake-midi-access';
import { connectKit, play, startPlaying } from './page/app';
import { heardClicksScript, playToClicks } from './page/heard-clicks';

/** The pictures of the guide in Help: the app itself, of each chapter what it speaks of, in both themes. */
export const GUIDE_FOLDER = fileURLToPath(
  new URL('../../src/view/screens/help/guide/pictures/', import.meta.url),
);
/** As wide as a picture with a margin, so that it is a whole page across, and is read at the width of a phone too. */
const MARGIN = 16;
/** Above what is pictured. */
const HEADROOM = 6;
const WINDOW = { width: PICTURE_SIZE.width + 2 * MARGIN, height: 1000 };
const THEMES = ['light', 'dark'] as const;
/** How far the lane is moved back, in steps of the slide, so that what was played is on both sides. */
const BACK = 6;
/** Pixels of a file to one of the page. */
const SHARPNESS = 2;
/** Of the best there is; more shows on no screen. */
const QUALITY = 70;

type Scene = (page: Page) => Promise<Locator>;

/** Quay Steps: its tempo, its cycle in partials, and who strikes them. */
const PARTIAL_MS = 15_000 / 88;
const CYCLE = 20;
const BASS_DRUM = 36;
const SNARE = 38;

/** A player who is a little of everything: early and late, a note left out, a stroke too many. */
const uneven = `localStorage.setItem(${JSON.stringify(`${SETTINGS_PREFIX}players`)}, ${JSON.stringify(
  JSON.stringify({
    ...FIRST_PLAYERS,
    player: 'simulated player',
    faults: { spreadMs: 22, missed: 0.06, extra: 0.03, loudGhosts: 0.2, velocitySpread: 7 },
  }),
)});`;

/** The simulated player is heard for so long, and plays on. */
async function playedBy(page: Page, ms: number): Promise<void> {
  await page.getByTestId('layer-step').last().click();
  await page.getByTestId('start').click();
  await page.waitForTimeout(ms);
  await hide(page.getByTestId('bar'));
}

/** Out of a picture goes what lies over it or between its parts in a narrow window. */
const hide = (what: Locator) =>
  what.evaluateAll((all) => {
    for (const one of all as HTMLElement[]) one.style.display = 'none';
  });

const SCENES: Readonly<Record<ChapterId, { readonly before?: string; readonly scene: Scene }>> = {
  'first-ten-minutes': {
    async scene(page) {
      const strike = async (words: string, note: number) => {
        await page.getByTestId('first-ask').getByText(words).waitFor();
        await page.waitForTimeout(1000);
        await page.evaluate(
          (struck) => window.fakeMidi.emit('kit', [0x99, struck, 90], performance.now()),
          note,
        );
      };
      await page.getByTestId('on-my-kit').click();
      await strike('Strike any pad.', SNARE);
      await strike('Play the bass drum.', BASS_DRUM);
      await strike('Strike the snare.', SNARE);
      await page.getByTestId('first-ask').getByText('Strike the high tom.').waitFor();
      return page.getByRole('list', { name: 'Steps' });
    },
  },
  'reading-the-lane': {
    before: uneven,
    async scene(page) {
      await playedBy(page, 11_000);
      await page.getByTestId('start').evaluate((button) => (button as HTMLElement).click());
      const slide = page.getByRole('slider', { name: 'Place in the take' });
      for (let i = 0; i < BACK; i++) await slide.press('ArrowLeft');
      await slide.blur();
      return page.getByRole('img', { name: /^Lane/ });
    },
  },
  'reading-the-figures': {
    before: uneven,
    async scene(page) {
      await playedBy(page, 19_000);
      return page.getByRole('region', { name: /last cycle/ });
    },
  },
  'what-passing-means': {
    async scene(page) {
      await connectKit(page);
      await page.evaluate(() => (location.hash = '#practise'));
      const originMs = await startPlaying(page);
      const strokes = Array.from({ length: 12 * CYCLE }, (_, i) => ({
        atMs: originMs + i * PARTIAL_MS + 6 * Math.sin(i),
        note: (i % CYCLE) % 5 === 4 ? BASS_DRUM : SNARE,
        velocity: 80,
      }));
      void play(page, strokes).catch(() => undefined);
      const passed = page.getByTestId('passed');
      await passed.waitFor();
      await hide(page.getByTestId('bar'));
      return passed;
    },
  },
  'the-offset': {
    async scene(page) {
      await connectKit(page);
      await page.evaluate(() => (location.hash = '#kit/offset'));
      await page.getByLabel(/from playing/).click();
      await page.getByTestId('played-begin').click();
      const lateMs = (i: number) => 14 + 9 * Math.sin(2.4 * i) + 4 * Math.cos(5 * i);
      await playToClicks(
        page,
        0,
        Array.from({ length: 46 }, (_, i) => lateMs(i)),
      );
      await page.getByTestId('played-finish').click();
      await page.getByTestId('played-keep').click();
      return page.getByTestId('played-state');
    },
  },
  'kit-troubles': {
    async scene(page) {
      await connectKit(page);
      for (const velocity of [64, 80, 71])
        await page.evaluate(
          (struck) => window.fakeMidi.emit('kit', [0x99, 31, struck], performance.now()),
          velocity,
        );
      await page.getByTestId('new-notes').waitFor();
      return page.getByTestId('new-notes');
    },
  },
  'writing-a-phrase': {
    async scene(page) {
      await page.evaluate(() => (location.hash = '#compose/quay-steps'));
      await page.getByLabel('every: limb').selectOption({ label: 'right hand' });
      await page.getByLabel('Level', { exact: true }).selectOption('accent');
      await hide(page.locator('.root, .layers'));
      return page.getByRole('group', { name: /^Score line/ }).first();
    },
  },
};

/** What stands on the page from the top of something on, as a file. */
async function pictureFrom(page: Page, top: Locator, name: string): Promise<void> {
  // What is as high as the window would be stretched by a picture of more than it.
  const y = await top.evaluate((element, headroom) => {
    scrollBy(0, element.getBoundingClientRect().top - headroom);
    return element.getBoundingClientRect().top + scrollY;
  }, HEADROOM);
  const cdp = await page.context().newCDPSession(page);
  const { data } = await cdp.send('Page.captureScreenshot', {
    format: 'webp',
    quality: QUALITY,
    clip: { x: MARGIN, y: Math.max(0, y - HEADROOM), ...PICTURE_SIZE, scale: SHARPNESS },
  });
  writeFileSync(`${GUIDE_FOLDER}${name}.webp`, Buffer.from(data, 'base64'));
}

export async function pictureGuide(
  browser: Browser,
  address: string,
  only = Object.keys(SCENES) as readonly ChapterId[],
): Promise<void> {
  for (const chapter of only) {
    const { before, scene } = SCENES[chapter];
    const context = await browser.newContext({ viewport: WINDOW, deviceScaleFactor: SHARPNESS });
    const page = await context.newPage();
    // tsx leaves calls of this helper in functions; here their text goes into a page.
    await page.addInitScript('globalThis.__name = (one) => one');
    await page.addInitScript(fakeMidiScript());
    await page.addInitScript(() => window.fakeMidi.plug('kit', 'Harbour kit'));
    await page.addInitScript(heardClicksScript());
    if (before !== undefined) await page.addInitScript(before);
    await page.goto(address, { waitUntil: 'networkidle' });
    const top = await scene(page);
    for (const colorScheme of THEMES) {
      await page.emulateMedia({ colorScheme });
      await page.waitForTimeout(500);
      await pictureFrom(page, top, `${chapter}-${colorScheme}`);
    }
    await context.close();
  }
}
