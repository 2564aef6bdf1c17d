import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, expect, inject, it } from 'vitest';
import { openFile, playTake } from './page/app';
import {
  chromiumWithFolder,
  dropFolder,
  folderScript,
  type FolderAnswer,
} from './page/chosen-folder';
import { simulatedPlayerScript } from './page/simulated-player';
import { watchPage } from './page/watch-page';

let place: string;
let folder: string;
beforeEach(() => {
  place = mkdtempSync(join(tmpdir(), 'folder-backup-'));
  folder = join(place, 'Attic');
});
afterEach(() => rmSync(place, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 }));
const PHRASE = {
  title: 'Attic stairs',
  meter: '4/4',
  tempoBpm: 90,
  subdivision: 4,
  grouping: 'R L K',
  layers: [{ name: 'Sticking' }],
};

async function withPage(answer: FolderAnswer, work: (page: Page) => Promise<void>): Promise<void> {
  const { origin } = new URL(inject('address'));
  const context = await chromiumWithFolder(join(place, 'profile'), folder, { origin, answer });
  try {
    const page = await context.newPage();
    const { faults } = watchPage(page);
    await page.addInitScript(simulatedPlayerScript());
    await page.addInitScript(folderScript());
    await page.goto(inject('address'));
    await page.getByTestId('start').waitFor();
    await work(page);
    expect(faults).toEqual([]);
  } finally {
    await context.close();
  }
}

async function toWhatIsKept(page: Page): Promise<void> {
  await page.goto(`${inject('address')}#log/what-is-kept`);
  await page.getByRole('heading', { name: 'Automatic backup' }).waitFor();
}

/** The one file that stands in the folder, unpacked. */
function written(): string {
  const names = readdirSync(folder);
  expect(names).toEqual([expect.stringMatching(/^what-is-kept-\d{4}-\d\d-\d\d\.gz$/)]);
  return gunzipSync(readFileSync(join(folder, names[0]!))).toString();
}

const writeNow = (page: Page) => page.getByRole('button', { name: 'Back up now' });
const told = (page: Page) => page.getByTestId('folder-told').textContent();

it('writes what is kept into a folder of the machine, and tells when it cannot', async () => {
  mkdirSync(folder);
  await withPage('allowed', async (page) => {
    await openFile(page, 'attic.json', Buffer.from(JSON.stringify(PHRASE)));
    await page.getByTestId('keep-phrases').click();
    await page.getByRole('heading', { level: 1, name: PHRASE.title }).waitFor();
    await toWhatIsKept(page);
    await dropFolder(page, folder);
    await page.getByTestId('choose-folder').click();
    await expect.poll(() => told(page)).toMatch(/into the folder “Attic”.\s+Last written/);
    expect(written()).toContain(PHRASE.title);

    rmSync(folder, { recursive: true });
    await writeNow(page).click();
    await page.getByRole('alert').getByText('The folder is not there any more').waitFor();
    mkdirSync(folder);
    await writeNow(page).click();
    await page.getByRole('alert').waitFor({ state: 'detached' });
    expect(written()).toContain(PHRASE.title);
  });

  // Another day: the browser has been closed, and remembers the folder and that it may.
  rmSync(join(folder, readdirSync(folder)[0]!));
  await withPage('allowed', async (page) => {
    await playTake(page);
    await page.getByTestId('last-take').getByText('In the log').waitFor();
    await expect
      .poll(() => (existsSync(folder) ? readdirSync(folder) : []), {
        timeout: 60_000,
        interval: 500,
      })
      // Once it is whole: beside it stands what the browser has not put in its place yet.
      .toEqual([expect.stringMatching(/\.gz$/)]);
    expect(written()).toContain('"takes"');
    await toWhatIsKept(page);
    expect(await told(page)).toContain('Last written');
  });

  const before = written();
  await withPage('denied', async (page) => {
    await toWhatIsKept(page);
    await page.getByText('The browser asks before this page writes there.').waitFor();
    expect(await writeNow(page).isDisabled()).toBe(true);
    await page.getByTestId('allow-folder').click();
    await page
      .getByRole('alert')
      .getByText('Nothing is written into the folder as long as the browser may not.')
      .waitFor();
    expect(written()).toBe(before);
    await page.getByRole('button', { name: 'Turn it off' }).click();
    await page.getByTestId('choose-folder').waitFor();
    expect(written()).toBe(before);
  });
});
