import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  connectKit,
  openApp,
  play,
  practisePhrase,
  settled,
  startPlaying,
  tableRows,
} from './page/app';
import { startByKeyboard, tabTo } from './page/by-keyboard';
import { launchChromium } from './page/launch';

/** Eighths at 120: a partial is 250 ms, a cycle is a bar of 2 s. */
const PHRASE = {
  title: 'Eight Oars',
  meter: '4/4',
  tempoBpm: 120,
  subdivision: 2,
  grouping: 'R L R L R L R K',
  layers: [{ name: 'Sticking' }],
};
const PARTIAL_MS = 250;
const SNARE = 38;
const BASS_DRUM = 36;

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

/** On Practise with the kit, the exercise's fields open, all by keyboard from there on. */
async function openFields() {
  const app = await openApp(browser);
  await connectKit(app.page);
  await practisePhrase(app.page, PHRASE);
  await tabTo(app.page, /^Exercise:/);
  await app.page.keyboard.press('Enter');
  return app;
}

const strip = (page: Page) => page.getByTestId('exercise-strip').textContent();

/** Plays partials of the exercise from its bar 1 beat 1. */
const strike = async (page: Page, originMs: number, strokes: readonly [number, number][]) =>
  play(
    page,
    strokes.map(([partial, note]) => ({
      atMs: originMs + partial * PARTIAL_MS,
      note,
      velocity: 70,
    })),
  );

const verdicts = async (page: Page, count: number) =>
  (await tableRows(page)).slice(0, count).map(({ voice, verdict }) => `${voice} ${verdict}`);

/** Whatever the click's place is guessed at, within the window. */
const PLAYED = /^(in time|early|late)$/;

describe.concurrent('exercises by keyboard alone', () => {
  it('loops some notes, slower in one press and back in one', async () => {
    const { page, faults, close } = await openFields();
    await tabTo(page, 'From');
    for (let i = 0; i < 6; i++) await page.keyboard.press('ArrowDown');
    await tabTo(page, 'Practise these notes');
    await page.keyboard.press('Enter');
    await page.getByTestId('exercise-strip').waitFor();
    expect(await strip(page)).toContain('bar 1, 4 to');
    await tabTo(page, /^Slower/, 'Shift+Tab');
    await page.keyboard.press('Enter');
    expect(await page.getByTestId('tempo').inputValue()).toBe('90');
    await tabTo(page, 'Back to 120');
    await page.keyboard.press('Enter');
    expect(await page.getByTestId('tempo').inputValue()).toBe('120');
    await tabTo(page, 'Whole layer');
    await page.keyboard.press('Enter');
    await page.getByTestId('layer-step').first().waitFor();
    expect(faults).toEqual([]);
    await close();
  });

  it('asks for one limb alone, and judges nothing else', async () => {
    const { page, faults, close } = await openFields();
    await tabTo(page, 'You play');
    // Each limb alone and all but it, right hand first.
    for (let i = 0; i < 5; i++) await page.keyboard.press('ArrowDown');
    await page.getByTestId('exercise-strip').waitFor();
    expect(await strip(page)).toContain('right foot alone');
    await tabTo(page, 'What was written and played');
    await page.keyboard.press('Enter');
    const played = await page.getByTestId('lane-accompaniment').textContent();
    expect(played).toContain('What the app plays');
    const originMs = await startPlaying(page, () => startByKeyboard(page));
    await strike(page, originMs, [[7, BASS_DRUM]]);
    await settled(page, 0);
    const [first] = await verdicts(page, 1);
    expect(first!.replace('bass drum ', '')).toMatch(PLAYED);
    expect(await page.getByTestId('lane-extras').count()).toBe(0);
    await tabTo(page, 'Whole layer');
    await page.keyboard.press('Enter');
    await page.getByTestId('layer-step').first().waitFor();
    expect(faults).toEqual([]);
    await close();
  });

  it('plays a turn, then has it answered, and judges the answer alone', async () => {
    const { page, faults, close } = await openFields();
    await tabTo(page, 'Off');
    await page.keyboard.press('ArrowRight');
    await page.getByTestId('exercise-strip').waitFor();
    expect(await strip(page)).toContain('hear one cycle, answer one');
    const originMs = await startPlaying(page, () => startByKeyboard(page));
    await page.getByTestId('turn').getByText('Listen').waitFor();
    await strike(page, originMs, [
      [8, SNARE],
      [9, SNARE],
      [10, SNARE],
    ]);
    await page.getByTestId('turn').getByText('Answer').waitFor();
    await settled(page, 2);
    const rows = (await tableRows(page)).slice(0, 3);
    expect(rows.map(({ cycle, position }) => `${cycle}.${position}`)).toEqual([
      '2.1',
      '2.2',
      '2.3',
    ]);
    for (const { verdict } of rows) expect(verdict).toMatch(PLAYED);
    await page.keyboard.press('Enter');
    expect(faults).toEqual([]);
    await close();
  });

  it('lets R and L change places', async () => {
    const { page, faults, close } = await openFields();
    await tabTo(page, /^As written$/);
    await page.keyboard.press('ArrowRight');
    const limbs = await page
      .getByTestId('lane-table')
      .evaluate((table) =>
        [...table.querySelectorAll('tr[data-note]')]
          .slice(0, 3)
          .map((row) => row.children[5]!.textContent),
      );
    expect(limbs).toEqual(['left hand', 'right hand', 'left hand']);
    expect(faults).toEqual([]);
    await close();
  });
});

describe('a stretch of the lane', () => {
  it('is marked with a finger, which moves neither page nor lane', async () => {
    const { page, faults, close } = await openApp(browser);
    await practisePhrase(page, PHRASE);
    await page.setViewportSize({ width: 390, height: 844 });
    await page.getByText(/^Exercise:/).click();
    await page.getByTestId('mark-on-lane').click();
    const lane = (await page.locator('canvas').first().boundingBox())!;
    const top = await page.evaluate(() => scrollY);
    const finger = await page.context().newCDPSession(page);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', x: number, y: number) =>
      finger.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: type === 'touchEnd' ? [] : [{ x: lane.x + x, y: lane.y + y }],
      });
    const types = page.evaluate(
      () =>
        new Promise<string[]>((resolve) => {
          const seen: string[] = [];
          const canvas = document.querySelector('canvas')!;
          for (const type of ['pointerdown', 'pointermove', 'pointercancel', 'pointerup'])
            canvas.addEventListener(type, (event) => {
              seen.push(`${(event as PointerEvent).pointerType} ${type}`);
              if (type === 'pointercancel' || type === 'pointerup') resolve(seen);
            });
        }),
    );
    // Downwards, too: where the page could be scrolled so, the finger would be taken away from the lane.
    await touch('touchStart', 170, 120);
    for (let step = 1; step <= 6; step++)
      await touch('touchMove', 170 + 20 * step, 120 + 12 * step);
    await touch('touchEnd', 0, 0);
    const seen = await types;
    expect(seen.at(0)).toBe('touch pointerdown');
    expect(seen.at(-1)).toBe('touch pointerup');
    expect(await page.evaluate(() => scrollY)).toBe(top);
    const marked = await page.getByText(/^\s*Marked: bar 1/).textContent();
    expect(marked).toMatch(/to /);
    await page.getByTestId('practise-marked').click();
    await page.getByTestId('exercise-strip').waitFor();
    expect(await strip(page)).toContain(marked!.replace(/^\s*Marked: /, '').trim());
    expect(faults).toEqual([]);
    await close();
  });
});

describe('a finding', () => {
  it('is practised in one press from the take, as a loop of its notes', async () => {
    const { page, faults, close } = await openApp(browser);
    await connectKit(page);
    const quick = { ...PHRASE, tempoBpm: 240 };
    await practisePhrase(page, quick);
    const originMs = await startPlaying(page, () => startByKeyboard(page));
    // The bass drum is left out, bar after bar: so many strokes are judged.
    const strokes = Array.from({ length: 12 }, (_, bar) =>
      [0, 1, 2, 3, 4, 5, 6].map((partial): [number, number] => [(8 * bar + partial) / 2, SNARE]),
    ).flat();
    await strike(page, originMs, strokes);
    await settled(page, 8 * 12 - 1);
    await page.keyboard.press('Enter');
    await tabTo(page, 'Open this take');
    await page.keyboard.press('Enter');
    await page.getByTestId('finding').first().waitFor();
    await tabTo(page, /^Practise these notes slower/);
    await page.keyboard.press('Enter');
    await page.getByTestId('exercise-strip').waitFor();
    expect(await strip(page)).toContain('Sticking, bar 1, 3 to 4 &');
    // As the advice says, and back in one press.
    expect(await page.getByTestId('tempo').inputValue()).toBe('180');
    await startByKeyboard(page);
    // Nobody plays: the loop goes round all the same, and is judged.
    await settled(page, 5);
    const loop = ['snare missed', 'snare missed', 'snare missed', 'bass drum missed'];
    expect(await verdicts(page, 6)).toEqual([...loop, ...loop.slice(0, 2)]);
    await page.keyboard.press('Enter');
    await page.getByTestId('last-take').waitFor();
    await tabTo(page, 'Back to 240');
    await page.keyboard.press('Enter');
    expect(await page.getByTestId('tempo').inputValue()).toBe('240');
    expect(faults).toEqual([]);
    await close();
  });
});
