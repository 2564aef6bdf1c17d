import { readFile } from 'node:fs/promises';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { MIDI_STATES } from '../../src/midi/midi-problems';
import { listeningWords } from '../../src/view/screens/capture/played-words';
import { connectKit, goTo, openApp, play, type PlannedStroke } from './page/app';
import { launchChromium } from './page/launch';

/**
 * Right hand in eighths on the closed hi-hat, bass drum on 1, snare on 3 with two ghosts behind it: sixteenths
 * at 96, a cycle of eight over two beats. Notes of the General MIDI percussion map.
 */
const HI_HAT = 42;
const SNARE = 38;
const BASS_DRUM = 36;
const CYCLE: readonly (readonly (readonly [note: number, velocity: number])[])[] = [
  [
    [HI_HAT, 100],
    [BASS_DRUM, 90],
  ],
  [],
  [[HI_HAT, 64]],
  [],
  [
    [HI_HAT, 100],
    [SNARE, 112],
  ],
  [[SNARE, 26]],
  [[HI_HAT, 64]],
  [[SNARE, 28]],
];
const BPM = 96;
const PARTIAL_MS = 60_000 / BPM / 4;
const ROUNDS = 8;
const BAD = { name: 'harbour.mid', mimeType: 'audio/midi', buffer: Buffer.from('no music') };

const LISTENING = listeningWords({ status: 'listening', bar: 0, strokes: 0 });

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

const openCapture = async (page: Page, way: string) => {
  await page.evaluate(() => (location.hash = '#capture'));
  await page.getByLabel(way).check();
};
const rowOf = (page: Page, about: string) =>
  page.locator(`[data-testid=findings] tr[data-about="${about}"]`);
const foundOf = (page: Page, about: string): Promise<string> => rowOf(page, about).innerText();
const positions = (page: Page, row: string): Promise<string[]> =>
  page.locator(`[data-testid=positions] tr.${row} td`).allInnerTexts();

/** The rounds from a moment on, each stroke up to 9 ms beside its place, all different. */
const rounds = (fromMs: number): PlannedStroke[] =>
  Array.from({ length: ROUNDS * CYCLE.length }, (_, i) =>
    CYCLE[i % CYCLE.length]!.map(([note, velocity]) => ({
      atMs: fromMs + i * PARTIAL_MS + ((i * 7) % 19) - 9,
      note,
      velocity: velocity + ((i * 5) % 7) - 3,
    })),
  ).flat();

describe.concurrent('capture in Chromium', () => {
  it('writes down what is played several times round without a click, keeps it and finds it again', async () => {
    const { page, faults, close } = await openApp(browser);
    await connectKit(page);
    await openCapture(page, 'without a click');
    await page.getByTestId('capture-start').click();
    await page.getByText(LISTENING).waitFor();
    const fromMs = await page.evaluate(() => performance.now() + 300);
    const strokes = rounds(fromMs);
    await play(page, strokes);
    await page.getByTestId('stroke-count').getByText(String(strokes.length)).waitFor();
    await page.getByTestId('capture-start').click();

    await page
      .getByTestId('written')
      .getByText(/at (about )?96 bpm/)
      .waitFor();
    const tempo = Number(/([\d.]+) beats a minute/.exec(await foundOf(page, 'tempo'))![1]);
    expect(Math.abs(tempo / BPM - 1)).toBeLessThan(0.01);
    expect(await foundOf(page, 'subdivision')).toMatch(/sixteenths|4 partials/);
    expect(await foundOf(page, 'cycle')).toMatch(/8 partials/);
    const layers = await page
      .locator('section:has(> h2:text-is("Layers")) ol button')
      .allInnerTexts();
    expect(layers).toEqual(['1 Sticking', '2 Accents', '3 Hi-hat', '4 Ghosts']);
    expect(await positions(page, 'voice')).toEqual([
      'hi-hat closed\nbass drum',
      '',
      'hi-hat closed',
      '',
      'hi-hat closed\nsnare',
      'snare',
      'hi-hat closed',
      'snare',
    ]);
    expect((await positions(page, 'level')).slice(4)).toEqual([
      'accent\naccent',
      'ghost',
      'tap',
      'ghost',
    ]);
    expect(await rowOf(page, 'sticking').getAttribute('data-sure')).toBe('false');

    await page.getByTestId('captured-title').fill('Slipway');
    await page.getByTestId('practise-captured').click();
    await page.getByTestId('start').waitFor();
    await page.reload({ waitUntil: 'networkidle' });
    await goTo(page, 'Phrases');
    await page.getByRole('link', { name: 'Slipway' }).click();
    await page.getByTestId('practise-this').waitFor();
    expect(faults).toEqual([]);
    await close();
  });

  it('keeps what was played when the kit is unplugged and the page left, and writes it down later', async ({
    expect,
  }) => {
    const { page, faults, close } = await openApp(browser);
    await connectKit(page);
    await openCapture(page, 'without a click');
    await page.getByTestId('capture-start').click();
    await page.getByText(LISTENING).waitFor();
    const fromMs = await page.evaluate(() => performance.now() + 300);
    const strokes = rounds(fromMs).filter(
      ({ atMs }) => atMs < fromMs + 5 * CYCLE.length * PARTIAL_MS - 20,
    );
    await play(page, strokes);
    await page.evaluate(() => window.fakeMidi.unplug('kit'));
    const unplugged = MIDI_STATES.unplugged.sentence.replace('{port}', 'Harbour kit');
    await page.getByTestId('capture-problem').getByText(unplugged).waitFor();
    // Written down twice in a second.
    await page.waitForTimeout(1000);
    await page.reload({ waitUntil: 'networkidle' });
    await page.getByRole('button', { name: `${strokes.length} strokes, without a click` }).click();
    await page.getByTestId('written').waitFor();
    expect(await positions(page, 'sticking')).toHaveLength(8);

    await page.getByTestId('correct-cycle').fill('16');
    await page.getByTestId('correct-cycle').press('Enter');
    // Five rounds of eight partials: two whole ones of sixteen.
    await expect.poll(() => page.getByTestId('corrected').innerText()).toMatch(/\b16\b.*\b2\b/);
    expect(await positions(page, 'sticking')).toHaveLength(16);
    expect(await foundOf(page, 'cycle')).toMatch(/\b16\b/);
    expect(faults).toEqual([]);
    await close();
  });

  it('reads a MIDI file, and says what is wrong with one that is none', async () => {
    const { page, faults, close } = await openApp(browser);
    await openCapture(page, 'from a MIDI file');
    await page.getByTestId('file-to-read').setInputFiles(BAD);
    await page.getByTestId('capture-problem').getByText('harbour.mid').waitFor();
    expect(await page.getByTestId('written').count()).toBe(0);
    await page.getByTestId('file-to-read').setInputFiles({
      name: 'take.mid',
      mimeType: 'audio/midi',
      buffer: await readFile('shared/takes/take-08.mid'),
    });
    // 95 bpm: the dataset's table, shared/takes/README.md.
    await page.getByTestId('written').getByText('at 95 bpm').waitFor();
    expect(await page.getByTestId('capture-problem').innerText()).toBe('');
    await page.getByTestId('file-to-read').setInputFiles(BAD);
    await page.getByTestId('capture-problem').getByText('harbour.mid').waitFor();
    expect(await page.getByTestId('written').innerText()).toContain('at 95 bpm');
    expect(faults).toEqual([]);
    await close();
  });
});
