import type { Browser, Page } from 'playwright-core';
import { inject } from 'vitest';
import { MIDI_STATES } from '../../../src/midi/midi-problems';
import { fakeMidiScript, type FakeMidi } from '../../midi/fake-midi-access';
import { heardClicksScript } from './heard-clicks';
import { simulatedPlayerScript } from './simulated-player';
import { slowFramesScript } from './slow-frames';
import { watchPage } from './watch-page';

declare global {
  interface Window {
    fakeMidi: FakeMidi;
  }
}

/**
 * The app in a page of its own, with a virtual MIDI port named "Harbour kit" plugged in and its clicks listened to;
 * the simulated player is chosen, and `script` runs before it.
 */
export async function openApp(
  browser: Browser,
  script = '',
  waitUntil: 'networkidle' | 'commit' = 'networkidle',
) {
  const context = await browser.newContext({ viewport: { width: 1024, height: 640 } });
  const page = await context.newPage();
  const { faults } = watchPage(page);
  await page.addInitScript(fakeMidiScript());
  await page.addInitScript(() => window.fakeMidi.plug('kit', 'Harbour kit'));
  await page.addInitScript(simulatedPlayerScript());
  await page.addInitScript(heardClicksScript());
  await page.addInitScript(slowFramesScript());
  if (script !== '') await page.addInitScript(script);
  await page.goto(inject('address'), { waitUntil });
  return { page, faults, close: () => context.close() };
}

type WayOn = 'Practise' | 'Phrases' | 'Kit' | 'Log';

/** Presses the word of a screen in the navigation. */
export const pressWay = (page: Page, screen: WayOn) =>
  page.getByRole('navigation').getByRole('link', { name: screen, exact: true }).click();

/** Goes to a screen, and waits for it: until it has come, the one before is shown. */
export async function goTo(page: Page, screen: WayOn) {
  await pressWay(page, screen);
  const sign =
    screen === 'Practise'
      ? page.getByTestId('bar')
      : page.getByRole('heading', { level: 1, name: screen, exact: true });
  await sign.waitFor({ state: 'attached' });
}

/** Looks at every screen, those behind the navigation too, at the address of the page. */
export async function showEveryScreen(page: Page) {
  const heading = page.getByRole('heading', { level: 1 });
  for (const screen of ['Phrases', 'Kit', 'Log'] as const) {
    await goTo(page, screen);
  }
  const { origin, pathname } = new URL(page.url());
  for (const [hash, name] of BEHIND) {
    await page.goto(`${origin}${pathname}#${hash}`);
    await heading.getByText(name).waitFor();
  }
}

/** Addresses behind the navigation, with their headings. */
const BEHIND = [
  ['compose', 'New phrase'],
  ['capture', 'Capture'],
  ['vary/quay-steps', 'Quay Steps'],
  ['sheet/quay-steps', 'Quay Steps'],
  ['kit/offset', 'Offset of the rig'],
  ['kit/what-it-sends', 'What the kit sends'],
  ['log/what-is-kept', 'What is kept'],
  ['open', 'Open a file'],
  ['help', 'Help'],
] as const;

/** What was written is in the database: until then, a tab notes it beside its settings. */
export const inDatabase = (page: Page) =>
  page.waitForFunction(
    () => !Object.keys(localStorage).some((key) => key.includes('unsaved edits')),
  );

/** Lets the player who is chosen play a take of some seconds, count-in included. */
export async function playTake(page: Page) {
  await page.getByTestId('start').click();
  await page.waitForTimeout(6000);
  await page.getByRole('button', { name: 'Stop' }).click();
}

/** Allows MIDI and plays on the virtual port. */
export async function connectKit(page: Page) {
  await goTo(page, 'Kit');
  await page.getByTestId('midi-connect').click();
  await page
    .getByTestId('midi-state')
    .getByText(MIDI_STATES.ready.sentence.replace('{port}', 'Harbour kit'))
    .waitFor();
}

/** Chooses a file where files are opened. */
export async function openFile(page: Page, name: string, buffer: Buffer) {
  await goTo(page, 'Phrases');
  await page.getByRole('link', { name: 'Open a file', exact: true }).click();
  await page.getByTestId('file-to-open').setInputFiles({ name, mimeType: 'x/x', buffer });
}

/** Opens a phrase file, keeps what is in it and chooses it for practice. */
export async function practisePhrase(page: Page, phrase: { readonly title: string }) {
  await openFile(page, 'phrase.json', Buffer.from(JSON.stringify(phrase)));
  await page.getByTestId('keep-phrases').click();
  await page.getByRole('heading', { level: 1, name: phrase.title }).waitFor();
  await page.getByRole('button', { name: 'Close this message' }).last().click();
  await page.getByTestId('practise-this').click();
  await page.getByTestId('start').waitFor();
}

/** Clicks before bar 1 of a phrase in 4/4. */
const COUNT_IN = 4;

/** Starts a take in 4/4 and says when, on the page's clock, the click on bar 1 is heard: to a few milliseconds. */
export async function startPlaying(
  page: Page,
  press = () => page.getByTestId('start').click(),
): Promise<number> {
  const first = await page.evaluate(() => window.heardClicks.queued);
  await press();
  return page.evaluate(async (k) => {
    const look = () => new Promise((resolve) => setTimeout(resolve, 20));
    while (window.heardClicks.queued <= k) await look();
    while (window.heardClicks.heardMs(k) > performance.now()) await look();
    return window.heardClicks.heardMs(k);
  }, first + COUNT_IN);
}

/** Once something is said of a note. */
export const settled = (page: Page, note: number): Promise<void> =>
  page
    .locator(`tr[data-note="${note}"]:not([data-verdict="not played yet"])`)
    .waitFor({ state: 'attached' });

/** One row of the lane's text equivalent. */
export interface TableRow {
  readonly cycle: string;
  readonly position: string;
  readonly voice: string;
  readonly verdict: string;
  readonly struck: string;
  readonly loudness: string;
  /** Undefined when nothing was played. */
  readonly offsetMs: number | undefined;
}

/** The text equivalent of the lane, as it stands. */
export const tableRows = (page: Page): Promise<TableRow[]> =>
  page.getByTestId('lane-table').evaluate((table) =>
    [...table.querySelectorAll<HTMLElement>('tr[data-note]')].map((row) => {
      const cells = [...row.children].map((cell) => cell.textContent.trim());
      const offset = cells[8]!.replace('−', '-').replace(' ms', '');
      return {
        cycle: cells[2]!,
        position: cells[3]!,
        voice: cells[4]!,
        verdict: row.dataset['verdict']!,
        struck: row.dataset['struck']!,
        loudness: row.dataset['levelVerdict']!,
        offsetMs: offset === '–' ? undefined : Number(offset),
      };
    }),
  );

/** Voices and reasons of the strokes that answer no note. */
export const extraRows = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('[data-testid=lane-extras] tr[data-why]')].map(
      (row) => `${row.querySelector('th')!.textContent.trim()}: ${row.dataset['why']}`,
    ),
  );

/** A stroke for the virtual port: when it is stamped, on the page's performance clock. */
export interface PlannedStroke {
  readonly atMs: number;
  readonly note: number;
  readonly velocity: number;
}

/** Plays strokes through the virtual port, each when its time comes and stamped with that very time. */
export async function play(page: Page, strokes: readonly PlannedStroke[]): Promise<void> {
  await page.evaluate(
    (planned) =>
      Promise.all(
        planned.map(
          ({ atMs, note, velocity }) =>
            new Promise<void>((resolve) => {
              setTimeout(() => {
                window.fakeMidi.emit('kit', [0x99, note, velocity], atMs);
                window.fakeMidi.emit('kit', [0x99, note, 0], atMs + 20);
                resolve();
              }, atMs - performance.now());
            }),
        ),
      ).then(() => undefined),
    strokes,
  );
}
