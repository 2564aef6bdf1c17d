import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import type { Command } from '../../src/control/command';
import { connectKit, extraRows, goTo, openApp, play, practisePhrase } from './page/app';
import { launchChromium } from './page/launch';

/** Eighths at 120 on the snare, in three layers: the other pads of the kit are free. */
const PHRASE = {
  title: 'Mooring Line',
  meter: '4/4',
  tempoBpm: 120,
  subdivision: 2,
  grouping: 'R L R L R L R L',
  layers: [
    { name: 'Sticking' },
    { name: 'Accents', changes: [{ where: { positions: [1] }, set: { level: 'accent' } }] },
    { name: 'Ghosts', changes: [{ where: { limb: 'L' }, set: { level: 'ghost' } }] },
  ],
};
const SNARE = 38;
/** Free pads, as the kit "Edge and rim zones" has them. */
const PADS: readonly (readonly [Command, number])[] = [
  ['start or stop', 49],
  ['again', 57],
  ['next layer', 51],
  ['previous layer', 48],
  ['faster', 45],
  ['slower', 43],
  ['mark this spot', 56],
];

let browser: Browser;
let app: Awaited<ReturnType<typeof openApp>>;
let page: Page;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());
beforeEach(async () => {
  app = await openApp(browser);
  page = app.page;
  await connectKit(page);
  await practisePhrase(page, PHRASE);
});
afterEach(async () => {
  expect(app.faults).toEqual([]);
  await app.close();
});

const shown = (words: string | RegExp) =>
  page.getByTestId('command-shown').getByText(words).waitFor();
const status = (word: string) => page.getByTestId('status').getByText(word).waitFor();
const tempo = () => page.getByTestId('tempo').inputValue();
const nowMs = () => page.evaluate(() => performance.now());

/** So many quick and even strikes on a pad, from soon on. */
async function strike(note: number, times = 3): Promise<void> {
  const from = (await nowMs()) + 120;
  await play(
    page,
    Array.from({ length: times }, (_, i) => ({ atMs: from + 220 * i, note, velocity: 100 })),
  );
}

/** A message of a foot switch. */
const press = (...bytes: number[]) =>
  page.evaluate((sent) => {
    window.fakeMidi.emit('kit', sent, performance.now());
  }, bytes);

/** Opens what adds controls, and learns one for each command by what `give` sends. */
async function learn(command: Command, give: () => Promise<void>): Promise<string> {
  const fold = page.getByTestId('controls');
  if ((await fold.getAttribute('open')) === null) await fold.locator('summary').click();
  await page.getByRole('button', { name: `Add for ${command}`, exact: true }).click();
  await page.getByTestId('control-ask').waitFor();
  await give();
  await page.getByTestId('control-ask').waitFor({ state: 'detached' });
  return (await page.getByTestId('control-answer').textContent())!;
}

it('pads, learned by striking them, give every command through the port, and count as no stroke', async () => {
  for (const [command, note] of PADS)
    expect(await learn(command, () => strike(note, 1))).toMatch(/three strikes, quick and even\.$/);
  // The settings outlive the page.
  await page.reload({ waitUntil: 'networkidle' });
  await connectKit(page);
  await goTo(page, 'Practise');
  await page.getByTestId('start').waitFor();
  const lane = () => page.locator('canvas').first().boundingBox();

  await strike(49);
  await shown('Start');
  await status('Playing');
  const before = await lane();
  await strike(51);
  await shown('Layer 2: Accents');
  expect(await lane()).toEqual(before);
  await strike(48);
  await shown('Layer 1: Sticking');
  await strike(45);
  await shown('Faster: 124 bpm');
  expect(await tempo()).toBe('124');
  await strike(43);
  await shown('Slower: 120 bpm');
  // The snare is played, and gives nothing however often it is struck.
  await strike(SNARE, 5);
  await strike(56);
  await shown(/^Marked: bar \d+, /);
  // The table is read again once a cycle.
  await expect
    .poll(async () => (await extraRows(page)).filter((row) => !row.startsWith('snare')), {
      timeout: 10_000,
    })
    .toEqual([]);
  const judged = await extraRows(page);
  expect(judged.length).toBeLessThanOrEqual(5);
  await strike(57);
  await shown('Again');
  await status('Playing');
  await strike(56);
  await shown(/^Marked: bar \d+, /);
  await strike(49);
  await shown('Stop');
  await page.getByTestId('status').getByText('Playing').waitFor({ state: 'detached' });
}, 90_000);

it('foot switches of any channel, and a spot that was marked can be looped after the take and from its page', async () => {
  expect(await learn('start', () => press(0xb0, 64, 127))).toBe(
    'Start: foot switch: controller 64, channel 1, press it.',
  );
  expect(await learn('stop', () => press(0xc2, 5))).toBe(
    'Stop: foot switch: program 5, channel 3, press it.',
  );
  expect(await learn('mark this spot', () => press(0x91, 3, 90))).toBe(
    'Mark this spot: foot switch: note 3, channel 2, press it.',
  );
  await press(0xb0, 64, 0);
  await press(0xb0, 64, 127);
  await shown('Start');
  await status('Playing');
  await strike(SNARE, 8);
  await press(0x91, 3, 90);
  await shown(/^Marked: bar \d+, /);
  await press(0xc2, 5);
  await shown('Stop');
  await page.getByTestId('last-take').waitFor();
  const loop = page.getByTestId('marked-spots').getByRole('button');
  expect(await loop.textContent()).toMatch(/^\s*bar \d+, .*: loop it\s*$/);

  await page.getByRole('link', { name: 'Open this take' }).click();
  await page
    .getByTestId('take-spots')
    .getByText(/^bar \d+, /)
    .waitFor();
  // A foot switch is no pad that the kit's map lacks.
  expect(await page.getByText('note 3').count()).toBe(0);
  await page.getByTestId('loop-spot').click();
  await page.getByTestId('exercise-strip').waitFor();
}, 90_000);

it('keys give every command, are listed in Help, and can be changed', async () => {
  await page.keyboard.press('.');
  await shown('Layer 2: Accents');
  await page.keyboard.press(',');
  await shown('Layer 1: Sticking');
  await page.keyboard.press('+');
  await shown('Faster: 124 bpm');
  await page.keyboard.press('-');
  await shown('Slower: 120 bpm');
  await page.keyboard.press('x');
  await shown('Nothing played yet to mark');
  await page.keyboard.press('Space');
  await shown('Start');
  await status('Playing');
  await page.keyboard.press('x');
  await shown(/^Marked: bar \d+, /);
  await page.keyboard.press('c');
  await shown('Again');
  await status('Playing');
  await page.keyboard.press('Escape');
  await shown('Stop');

  expect(await learn('next layer', () => page.keyboard.press('PageDown'))).toBe(
    'Next layer: Page Down, press it.',
  );
  await page.getByRole('button', { name: 'Remove ., next layer' }).click();
  await page.keyboard.press('.');
  await page.keyboard.press('PageDown');
  await shown('Layer 2: Accents');
  await page.goto(`${page.url().split('#')[0]}#help`);
  const list = page.getByTestId('command-list');
  await list.getByText('Next layer: Page Down').waitFor();
  await list.getByText('Start or stop: space bar').waitFor();
  await goTo(page, 'Practise');
  await page.getByTestId('start').waitFor();
}, 60_000);
