import { mkdtempSync, rmSync, writeFileSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { MIDI_STATES } from '../../src/midi/midi-problems';
import { runCommand } from '../cli/run-command';
import {
  connectKit,
  extraRows,
  goTo,
  openApp,
  play,
  practisePhrase,
  settled,
  startPlaying,
  tableRows,
  type PlannedStroke,
} from './page/app';
import { launchChromium } from './page/launch';

/** Eighths at 120: a partial is 250 ms, a cycle of five 1.25 s, a bar 2 s. */
const PHRASE = {
  title: 'Five Oars',
  meter: '4/4',
  tempoBpm: 120,
  subdivision: 2,
  grouping: 'R L R L K',
  layers: [
    { name: 'Sticking' },
    {
      name: 'Levels',
      changes: [
        { where: { positions: [1] }, set: { level: 'accent' } },
        { where: { limb: 'L' }, set: { level: 'ghost' } },
      ],
    },
  ],
};
const PARTIAL_MS = 250;
const NOTES = [38, 38, 38, 38, 36];
const VELOCITIES = [110, 30, 70, 30, 75];

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

/** Plays the first cycle on the guessed origin and reads the true one back from the offsets told. */
async function findOrigin(page: Page): Promise<number> {
  const guessMs = await startPlaying(page);
  await play(page, [
    { atMs: guessMs + 2 * PARTIAL_MS, note: 38, velocity: 70 },
    { atMs: guessMs + 4 * PARTIAL_MS, note: 36, velocity: 70 },
  ]);
  await settled(page, 4);
  const rows = await tableRows(page);
  const offsets = [rows[2]!.offsetMs!, rows[4]!.offsetMs!];
  expect(Math.abs(offsets[0]! - offsets[1]!)).toBeLessThanOrEqual(0.2);
  return guessMs - offsets[0]!;
}

const stroke = (originMs: number, cycle: number, position: number): PlannedStroke => ({
  atMs: originMs + ((cycle - 1) * 5 + position - 1) * PARTIAL_MS,
  note: NOTES[position - 1]!,
  velocity: VELOCITIES[position - 1]!,
});

const cycleStrokes = (originMs: number, cycle: number) =>
  [1, 2, 3, 4, 5].map((position) => stroke(originMs, cycle, position));

/** Once a whole cycle is judged. */
const cycleSettled = (page: Page, cycle: number) => settled(page, cycle * 5 - 1);

describe.concurrent('playing a phrase on a kit', () => {
  it('tells exactly the faults that were played, keeps the take, and says the same on the command line', async () => {
    const { page, faults, close } = await openApp(browser);
    await connectKit(page);
    await practisePhrase(page, PHRASE);
    await page.getByTestId('layer-step').nth(1).click();
    const origin = await findOrigin(page);

    const first = 4;
    const later = (strokes: PlannedStroke[], at: number, change: Partial<PlannedStroke>) =>
      (strokes[at] = { ...strokes[at]!, ...change });
    const fourth = cycleStrokes(origin, first);
    later(fourth, 0, { atMs: fourth[0]!.atMs + 60 });
    later(fourth, 1, { velocity: 90 });
    later(fourth, 2, { atMs: fourth[2]!.atMs - 55 });
    later(fourth, 4, { note: 51 });
    const fifth = cycleStrokes(origin, first + 1);
    later(fifth, 0, { velocity: 60 });
    fifth.push({ atMs: fifth[1]!.atMs + 12, note: 38, velocity: 10 });
    fifth.push({ atMs: fifth[3]!.atMs + 120, note: 49, velocity: 80 });
    fifth.splice(2, 1);
    await play(page, [...fourth, ...fifth, ...cycleStrokes(origin, first + 2)]);
    await cycleSettled(page, first + 2);

    const rows = (await tableRows(page)).slice(15, 30);
    const told = rows.flatMap(({ cycle, position, verdict, struck, loudness, offsetMs }) =>
      verdict === 'in time' && loudness === 'as written'
        ? []
        : [
            `${cycle}.${position} ${verdict}${struck === '' ? '' : ` ${struck}`}, ${loudness || '–'}, ${offsetMs === undefined ? '–' : Math.round(offsetMs)}`,
          ],
    );
    expect(told).toEqual([
      '4.1 late, as written, 60',
      '4.2 in time, too loud, 0',
      '4.3 early, as written, -55',
      '4.5 wrong voice ride, as written, 0',
      '5.1 in time, too soft, 0',
      '5.3 missed, –, –',
    ]);
    expect(await extraRows(page)).toEqual(['snare: double trigger', 'crash: extra']);

    await page.getByTestId('start').click();
    const kept = await tableRows(page);

    await page.reload({ waitUntil: 'networkidle' });
    await goTo(page, 'Log');
    const take = page.getByTestId('take-row').first();
    expect(await take.textContent()).toContain('Five Oars');
    await take.getByRole('link').first().click();
    await page.getByTestId('lane-table').waitFor({ state: 'attached' });
    const opened = await tableRows(page);
    expect(opened).toEqual(kept.slice(0, opened.length));
    expect(opened.length).toBeGreaterThanOrEqual(30);

    const folder = mkdtempSync(join(tmpdir(), 'take-'));
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: /MIDI/ }).click(),
    ]);
    const midi = join(folder, 'take.mid');
    await download.saveAs(midi);
    const phrase = join(folder, 'phrase.json');
    writeFileSync(phrase, JSON.stringify(PHRASE));
    const { stdout, stderr } = runCommand(
      'assess',
      midi,
      '--phrase',
      phrase,
      '--count-in',
      '1',
      '--json',
    );
    expect(stderr).toBe('');
    const report = JSON.parse(stdout) as {
      notes: {
        verdict: string;
        offsetMs: number | null;
        struck: string | null;
        voice: string;
        levelVerdict: string | null;
      }[];
    };
    expect(report.notes.map((note) => [note.verdict, note.levelVerdict ?? ''])).toEqual(
      opened.map((row) => [row.verdict, row.loudness]),
    );
    report.notes.forEach((note, i) => {
      if (note.offsetMs !== null)
        expect(Math.abs(note.offsetMs - opened[i]!.offsetMs!)).toBeLessThan(0.3);
    });
    expect(readFileSync(midi).subarray(0, 4).toString()).toBe('MThd');
    rmSync(folder, { recursive: true, force: true });
    expect(faults).toEqual([]);
    await close();
  });

  it('goes on after the kit was unplugged and plugged in again in the middle of a take', async () => {
    const { page, faults, close } = await openApp(browser);
    await connectKit(page);
    await practisePhrase(page, PHRASE);
    const origin = await findOrigin(page);
    await play(page, cycleStrokes(origin, 3));
    await page.evaluate(() => window.fakeMidi.unplug('kit'));
    await page.waitForTimeout(200);
    await page.evaluate(() => window.fakeMidi.replug('kit'));
    await play(page, cycleStrokes(origin, 5));
    await cycleSettled(page, 5);
    const verdicts = (await tableRows(page)).map((row) => row.verdict);
    expect(verdicts.slice(10, 25)).toEqual([
      ...Array<string>(5).fill('in time'),
      ...Array<string>(5).fill('missed'),
      ...Array<string>(5).fill('in time'),
    ]);
    expect(await extraRows(page)).toEqual([]);
    expect(faults).toEqual([]);
    await close();
  });

  it('tells when the browser refuses, and works on once it is allowed', async () => {
    const { page, close } = await openApp(browser);
    await page.evaluate(() => window.fakeMidi.refuse('NotAllowedError'));
    await goTo(page, 'Kit');
    await page.getByTestId('midi-connect').click();
    await page.getByTestId('midi-state').getByText(MIDI_STATES.denied.sentence).waitFor();
    await page.evaluate(() => window.fakeMidi.refuse(undefined));
    await page.getByTestId('midi-connect').click();
    await page.getByTestId('midi-state').getByText('Harbour kit').waitFor();
    expect(await page.getByTestId('midi-connect').count()).toBe(0);
    await close();
  });

  it('plays with nothing attached, where it is chosen: what the simulated player plays is judged, and passes nothing', async () => {
    const { page, faults, close } = await openApp(browser);
    const faster = { ...PHRASE, title: 'Six Oars', tempoBpm: 240 };
    await practisePhrase(page, faster);
    await page.getByTestId('start').click();
    await page.getByTestId('gate').waitFor();
    expect(await page.getByTestId('settings').count()).toBe(0);
    const rows = await tableRows(page);
    expect(rows.filter((row) => row.verdict === 'in time').length).toBeGreaterThan(5);
    await page.getByTestId('start').click();
    await page.getByTestId('last-take').waitFor();
    await goTo(page, 'Log');
    const row = page.getByTestId('take-row').first();
    await row.getByText('the simulated player').waitFor();
    await row.getByText('does not count').waitFor();
    expect(faults).toEqual([]);
    await close();
  });
});
