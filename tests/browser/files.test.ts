import { readFile } from 'node:fs/promises';
import { readFileSync } from 'node:fs';
import jsQR from 'jsqr';
import type { Browser, BrowserContextOptions, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { EDGE_AND_RIM } from '../../src/kit/built-in-kits';
import { writeKit } from '../../src/kit/parse-kit';
import { parsePhrases, writePhrases } from '../../src/phrase/file/phrase-list';
import type { Phrase } from '../../src/phrase/model/phrase';
import { phraseOf } from '../phrase/phrase-of';
import { openFile, playTake } from './page/app';
import { simulatedPlayerScript } from './page/simulated-player';
import { tabTo } from './page/by-keyboard';
import { launchChromium } from './page/launch';
import { watchPage } from './page/watch-page';

const EBB = phraseOf({ title: 'Ebb', grouping: 'R L L K', layers: [{ name: 'Sticking' }] });
const QUICK_EBB: Phrase = { ...EBB, tempoBpm: 140 };
const FLOOD: Phrase = { ...EBB, title: 'Flood & <b>Größe</b> 😀' };
const RECORDING = readFileSync(new URL('../../shared/examples/slack-tide.mid', import.meta.url));
const bytes = (text: string) => Buffer.from(text);

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

/** The app in a fresh profile. Nothing but its own origin may be asked for, and nothing may be told by the console. */
async function freshProfile(
  { hash = '', ...options }: BrowserContextOptions & { hash?: string } = {},
  script = '',
) {
  const context = await browser.newContext({
    viewport: { width: 1024, height: 640 },
    permissions: ['clipboard-read', 'clipboard-write'],
    ...options,
  });
  await context.addInitScript(simulatedPlayerScript());
  const page = await context.newPage();
  const { faults, requests } = watchPage(page);
  // A listener that is only there while a file is chosen may be heard of after the key that opens the chooser.
  page.on('filechooser', () => undefined);
  if (script !== '') await page.addInitScript(script);
  const address = inject('address');
  await page.goto(address + hash, { waitUntil: 'networkidle' });
  return {
    page,
    async close() {
      expect(faults).toEqual([]);
      expect(requests.filter((url) => !url.startsWith(address))).toEqual([]);
      await context.close();
    },
  };
}

const heading = (page: Page, name: string) =>
  page.getByRole('heading', { level: 1, name, exact: true });
const notice = (page: Page) => page.getByTestId('notice').last();
const toFiles = async (page: Page) => {
  await tabTo(page, 'Phrases');
  await page.keyboard.press('Enter');
  await heading(page, 'Phrases').waitFor();
  await tabTo(page, 'Open a file');
  await page.keyboard.press('Enter');
  await heading(page, 'Open a file').waitFor();
  // Until the heading has the focus of a new screen, what is tabbed to loses it again.
  await page.locator('h1:focus').waitFor();
};

/** Opens a file without a pointer. */
async function openByKeyboard(page: Page, name: string, buffer: Buffer) {
  await toFiles(page);
  await tabTo(page, /^A file, chosen here/);
  const choosing = page.waitForEvent('filechooser');
  await page.keyboard.press('Space');
  await (await choosing).setFiles({ name, mimeType: 'x/x', buffer });
  await page.getByTestId('opened').waitFor();
}

/** Drops a file on the page, as a drag from outside ends. */
async function drop(page: Page, name: string, text: string) {
  const dataTransfer = await page.evaluateHandle(
    ([fileName, content]) => {
      const transfer = new DataTransfer();
      transfer.items.add(new File([content], fileName));
      return transfer;
    },
    [name, text] as const,
  );
  await page.dispatchEvent('main', 'dragenter', { dataTransfer });
  await page.getByTestId('drop-target').getByText('Drop the file anywhere').waitFor();
  await page.dispatchEvent('main', 'drop', { dataTransfer });
  await page.getByTestId('drop-target').waitFor({ state: 'detached' });
}

async function savedBy(page: Page, press: () => Promise<void>) {
  const saving = page.waitForEvent('download');
  await press();
  const download = await saving;
  return { name: download.suggestedFilename(), content: await readFile(await download.path()) };
}
const enter = (page: Page) => () => page.keyboard.press('Enter');

async function keepByKeyboard(page: Page, button: string) {
  await tabTo(page, button);
  await page.keyboard.press('Enter');
}

const ownTitles = async (page: Page) => {
  await page.goto(`${inject('address')}#phrases`);
  const own = page.getByTestId('phrase-row').filter({ hasText: /\bown\b/ });
  await heading(page, 'Phrases').waitFor();
  return (await own.getByRole('link').allTextContents()).sort();
};

describe.concurrent('phrases as files', () => {
  it('are saved, one and several, and open in a fresh profile, by keyboard and by drop', async () => {
    const one = await freshProfile();
    await openByKeyboard(one.page, 'two.json', bytes(writePhrases([EBB, FLOOD])));
    expect(await ownTitles(one.page)).toEqual([]);
    await toFiles(one.page);
    await drop(one.page, 'two.json', writePhrases([EBB, FLOOD]));
    await keepByKeyboard(one.page, 'Keep 2 phrases');
    await notice(one.page).getByText('are among your phrases now').waitFor();
    await tabTo(one.page, 'Choose Ebb');
    await one.page.keyboard.press('Space');
    await tabTo(one.page, 'Save as a file: Ebb');
    const ebb = await savedBy(one.page, enter(one.page));
    expect(ebb).toEqual({ name: 'ebb.json', content: bytes(writePhrases([EBB])) });
    await tabTo(one.page, `Choose ${FLOOD.title}`, 'Shift+Tab');
    await one.page.keyboard.press('Space');
    await tabTo(one.page, 'Save as a file: 2 phrases');
    const both = await savedBy(one.page, enter(one.page));
    expect(parsePhrases(both.content.toString())).toEqual({ ok: true, value: [EBB, FLOOD] });
    await one.close();

    const other = await freshProfile();
    await openByKeyboard(other.page, ebb.name, ebb.content);
    await keepByKeyboard(other.page, 'Keep it');
    await heading(other.page, 'Ebb').waitFor();
    await drop(other.page, both.name, both.content.toString());
    await other.page.getByText('This very phrase is here already.').waitFor();
    await keepByKeyboard(other.page, 'Keep 1 phrase');
    await notice(other.page).getByText('Ebb was here already.').waitFor();
    expect(await ownTitles(other.page)).toEqual(['Ebb', FLOOD.title]);
    await other.close();
  });

  it('ask about a namesake, and do as it is answered', async () => {
    const { page, close } = await freshProfile();
    await openByKeyboard(page, 'ebb.json', bytes(writePhrases([EBB])));
    await keepByKeyboard(page, 'Keep it');
    await heading(page, 'Ebb').waitFor();
    const quick = bytes(writePhrases([QUICK_EBB]));

    await openByKeyboard(page, 'ebb.json', quick);
    await keepByKeyboard(page, 'Cancel');
    await heading(page, 'Phrases').waitFor();
    expect(await ownTitles(page)).toEqual(['Ebb']);

    await openByKeyboard(page, 'ebb.json', quick);
    await tabTo(page, /^keep both/);
    await keepByKeyboard(page, 'Keep it');
    await heading(page, 'Ebb, 2').waitFor();
    expect(await ownTitles(page)).toEqual(['Ebb', 'Ebb, 2']);

    await openByKeyboard(page, 'ebb.json', quick);
    await tabTo(page, /^keep both/);
    await page.keyboard.press('ArrowDown');
    await keepByKeyboard(page, 'Keep it');
    await notice(page).getByText('Ebb is replaced.').waitFor();
    await heading(page, 'Ebb').waitFor();
    await page.getByText('140 bpm').waitFor();
    await page.reload();
    await page.getByText('140 bpm').waitFor();
    expect(await ownTitles(page)).toEqual(['Ebb', 'Ebb, 2']);
    await close();
  });

  it('show markup as text, and run none of it', async () => {
    const { page, close } = await freshProfile();
    const title = `<img src=x onerror="document.title='run'">`;
    await openFile(page, `${title}.json`, bytes(writePhrases([{ ...EBB, title }])));
    await page.getByRole('heading', { level: 3, name: title }).waitFor();
    await keepByKeyboard(page, 'Keep it');
    await heading(page, title).waitFor();
    await notice(page).getByText(title).waitFor();
    await page.getByTestId('copy-link').click();
    await page.getByTestId('link-outcome').getByText('The link is copied').waitFor();
    expect(await page.title()).not.toBe('run');
    expect(await page.locator('img').count()).toBe(0);
    await close();
  });
});

const code = (page: Page) => page.getByTestId('code');
/** What a decoder that is not ours reads from the screen. */
async function readFrom(page: Page, picture: Locator): Promise<string | undefined> {
  const png = (await picture.screenshot()).toString('base64');
  const { width, height, data } = await page.evaluate(async (content) => {
    const blob = new Blob([Uint8Array.from(atob(content), (letter) => letter.charCodeAt(0))]);
    const image = await createImageBitmap(blob);
    const context = new OffscreenCanvas(image.width, image.height).getContext('2d')!;
    context.drawImage(image, 0, 0);
    const pixels = context.getImageData(0, 0, image.width, image.height);
    return { width: pixels.width, height: pixels.height, data: [...pixels.data] };
  }, png);
  return jsQR(Uint8ClampedArray.from(data), width, height)?.data;
}

// One after the other: a browser has one clipboard.
describe('phrases as links', () => {
  it('are copied by keyboard, and open in a fresh profile, which keeps nothing by itself', async () => {
    const one = await freshProfile();
    await openByKeyboard(one.page, 'ebb.json', bytes(writePhrases([FLOOD])));
    await keepByKeyboard(one.page, 'Keep it');
    await heading(one.page, FLOOD.title).waitFor();
    await tabTo(one.page, `Copy a link: ${FLOOD.title}`);
    await one.page.keyboard.press('Enter');
    await one.page.getByTestId('link-outcome').getByText('The link is copied').waitFor();
    const link = await one.page.evaluate(() => navigator.clipboard.readText());
    expect(link).toBe(await one.page.getByTestId('link-field').inputValue());
    expect(link.startsWith(`${inject('address')}#open/p1.`)).toBe(true);
    await one.page.keyboard.press('Escape');
    await one.page.getByTestId('link-dialog').waitFor({ state: 'detached' });
    await one.close();

    const opened = await freshProfile({ hash: new URL(link).hash });
    await opened.page.getByRole('heading', { level: 3, name: FLOOD.title }).waitFor();
    expect(await ownTitles(opened.page)).toEqual([]);
    await opened.page.goBack();
    await opened.page.getByTestId('opened').waitFor();
    await keepByKeyboard(opened.page, 'Keep it');
    await heading(opened.page, FLOOD.title).waitFor();
    expect(await ownTitles(opened.page)).toEqual([FLOOD.title]);
    await opened.close();

    const pasted = await freshProfile();
    await toFiles(pasted.page);
    await tabTo(pasted.page, /^A link that somebody gave you/);
    await pasted.page.evaluate((text) => navigator.clipboard.writeText(text), link);
    await pasted.page.keyboard.press('Control+V');
    await pasted.page.keyboard.press('Enter');
    await pasted.page.getByTestId('opened').waitFor();
    await keepByKeyboard(pasted.page, 'Keep it');
    await heading(pasted.page, FLOOD.title).waitFor();
    await pasted.close();

    const cut = await freshProfile({ hash: new URL(link).hash.slice(0, -7) });
    await cut.page.getByTestId('opening-problems').getByText('It is cut off or damaged').waitFor();
    await cut.close();
  });

  it('are selected where the browser does not let them be copied', async () => {
    const { page, close } = await freshProfile(
      { hash: '#phrases/quay-steps' },
      'Clipboard.prototype.writeText = () => Promise.reject(new DOMException("no", "NotAllowedError"));',
    );
    await tabTo(page, 'Copy a link: Quay Steps');
    await page.keyboard.press('Enter');
    await page.getByTestId('link-outcome').getByText('did not let it be copied').waitFor();
    expect(await page.evaluate(() => getSelection()!.toString())).toBe(
      await page.getByTestId('link-field').inputValue(),
    );
    await close();
  });

  it.each(['light', 'dark'] as const)(
    'are read from the screen as a code, %s',
    async (colorScheme) => {
      const { page, close } = await freshProfile({ hash: '#phrases/quay-steps', colorScheme });
      await tabTo(page, 'Copy a link: Quay Steps');
      await page.keyboard.press('Enter');
      await page.getByTestId('link-outcome').getByText('The link is copied').waitFor();
      await tabTo(page, 'Code for a phone’s camera');
      await page.keyboard.press('Space');
      await code(page).waitFor();
      expect(await readFrom(page, code(page))).toBe(
        await page.getByTestId('link-field').inputValue(),
      );
      await close();
    },
  );
});

describe('other files, opened at the same place by keyboard', () => {
  it('a kit, a MIDI file, a take and a backup each go where they belong', async () => {
    const one = await freshProfile();
    await playTake(one.page);
    await one.page.getByTestId('last-take').getByText('In the log').waitFor();
    await one.page.goto(`${inject('address')}#log/what-is-kept`);
    const backup = await savedBy(one.page, () => one.page.getByTestId('save-all').click());
    await one.page.goto(`${inject('address')}#log`);
    await one.page.getByTestId('take-row').getByRole('link').first().click();
    const take = await savedBy(one.page, () =>
      one.page.getByRole('button', { name: 'JSON', exact: true }).click(),
    );
    await one.page.goto(`${inject('address')}#kit`);
    const kit = await savedBy(one.page, () => one.page.getByTestId('save-kit').click());
    expect(kit.content.toString()).toBe(writeKit(EDGE_AND_RIM));
    await one.close();

    const { page, close } = await freshProfile();
    const renamed = writeKit({ ...EDGE_AND_RIM, title: 'Boathouse' });
    await openByKeyboard(page, 'kit.txt', bytes(renamed));
    await keepByKeyboard(page, 'Keep it and play by it');
    await heading(page, 'Kit').waitFor();
    await expect.poll(() => page.getByTestId('kit').inputValue()).toBe('Boathouse');

    await openByKeyboard(page, 'recording', RECORDING);
    await page.getByTestId('opened').getByText('192 strokes').waitFor();
    await keepByKeyboard(page, 'Have it written down as a phrase');
    await heading(page, 'Capture').waitFor();
    await page.getByTestId('captured-title').waitFor();

    await openByKeyboard(page, 'recording', RECORDING);
    await keepByKeyboard(page, 'Practise with it in place of the kit');
    await page.getByTestId('start').waitFor();
    await notice(page).getByText('recording plays in place of the kit').waitFor();

    await openByKeyboard(page, 'x.mid', take.content);
    await page.getByTestId('opened').getByText('A take of “Quay Steps”').waitFor();
    await keepByKeyboard(page, 'Put it into the log');
    await page.getByTestId('figure-spread').waitFor();
    await notice(page).getByText('The take is in the log now.').waitFor();

    await openByKeyboard(page, 'x.json', backup.content);
    await page
      .getByTestId('restore-preview')
      .getByText(/Takes: 1/)
      .waitFor();
    await close();

    const empty = await freshProfile();
    await openByKeyboard(empty.page, backup.name, backup.content);
    await keepByKeyboard(empty.page, 'Put it back');
    await empty.page.getByTestId('opening').getByText('It is all back.').waitFor();
    await empty.page.goto(`${inject('address')}#log`);
    await empty.page.getByTestId('take-row').waitFor();
    await empty.close();
  });
});
