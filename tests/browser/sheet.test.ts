import { readFile, rm } from 'node:fs/promises';
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import axe from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { getDocumentProxy } from 'unpdf';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { phraseAsMusic } from '../../src/exchange/phrase-as-music';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { writeTake } from '../../src/take/take-json';
import { beats } from '../../src/time/beats';
import { SHEET_FAILURES } from '../../src/practice/sheet/sheet-failures';
import { LIBRARY_LAYERS } from '../phrase/exercise/library-layers';
import { goTo, openFile } from './page/app';
import { launchChromium } from './page/launch';
import { watchPage } from './page/watch-page';

let browser: Browser;
const folder = mkdtempSync(join(tmpdir(), 'sheets-'));
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(async () => {
  await browser.close();
  await rm(folder, { recursive: true, force: true });
});

async function openedAt(hash: string) {
  const context = await browser.newContext({ viewport: { width: 1024, height: 640 } });
  const page = await context.newPage();
  const watch = watchPage(page);
  await page.goto(`${inject('address')}#${hash}`, { waitUntil: 'commit' });
  // All that comes last, pages beside it on busy cores included.
  await page.waitForFunction(
    () => performance.getEntriesByName('all fetched').length > 0,
    undefined,
    { timeout: 90_000 },
  );
  return { page, context, ...watch };
}

/** Until all layers are there. */
const drawn = (page: Page) =>
  page.waitForFunction(() =>
    [...document.querySelectorAll('button')].some(
      (button) => button.textContent === 'Print' && !button.disabled,
    ),
  );

async function saved(page: Page, name: string): Promise<string> {
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name }).click();
  const path = join(folder, (await download).suggestedFilename());
  await (await download).saveAs(path);
  return path;
}

/** Pages of a PDF with their texts, and what it says of its fonts. */
async function readPdf(bytes: Buffer) {
  const document = await getDocumentProxy(new Uint8Array(bytes));
  const pages = await Promise.all(
    Array.from({ length: document.numPages }, async (_, i) => {
      const page = await document.getPage(i + 1);
      const { items } = await page.getTextContent();
      const [, , width = 0, height = 0] = page.view;
      return {
        size: [Math.round(width), Math.round(height)],
        texts: items.flatMap((item) => ('str' in item && item.str.trim() !== '' ? [item] : [])),
      };
    }),
  );
  const objects = bytes.toString('latin1');
  return {
    pages,
    words: pages.flatMap(({ texts }) => texts.map(({ str }) => str)).join(' '),
    /** Fonts that bring the outlines of their letters as drawings (ISO 32000-1, 9.6.5), and those that need a font file. */
    drawnFonts: objects.match(/\/Subtype\s*\/Type3\b/g)?.length ?? 0,
    filedFonts: objects.match(/\/Subtype\s*\/(?:Type1|TrueType|CIDFontType[02])\b/g)?.length ?? 0,
    fontFiles: objects.match(/\/FontFile[23]?\b/g)?.length ?? 0,
    images: objects.match(/\/Subtype\s*\/Image/g)?.length ?? 0,
  };
}

describe.concurrent('a sheet', () => {
  it('is opened without a connection, once the page has been used', async () => {
    const { page, context, faults } = await openedAt('phrases/quay-steps');
    await context.setOffline(true);
    await page.getByRole('link', { name: 'Sheet', exact: true }).click();
    await drawn(page);
    expect(await page.getByTestId('sheet-layer').count()).toBe(5);
    const svg = await readFile(await saved(page, 'Save as SVG'), 'utf8');
    expect(svg.match(/@font-face/g)).toHaveLength(2);
    expect(faults).toEqual([]);
    await context.close();
  });

  it('and so where the browser keeps nothing of what it fetched, again and again', async () => {
    const context = await browser.newContext({ viewport: { width: 1024, height: 640 } });
    let isCut = false;
    const late: string[] = [];
    await context.route('**/*', async (route) => {
      const url = route.request().url();
      // Chromium looks at the icon again with each address.
      const contentType = 'image/svg+xml';
      if (url.endsWith('.svg')) return route.fulfill({ contentType, body: '<svg/>' });
      if (isCut) {
        late.push(url);
        return route.abort('internetdisconnected');
      }
      const answer = await route.fetch();
      const headers = { ...answer.headers(), 'cache-control': 'no-store' };
      return route.fulfill({ response: answer, headers });
    });
    const page = await context.newPage();
    const { faults } = watchPage(page);
    await page.goto(`${inject('address')}#phrases/quay-steps`);
    await page.waitForFunction(() => performance.getEntriesByName('all fetched').length > 0);
    isCut = true;
    await context.setOffline(true);
    await page.getByRole('link', { name: 'Sheet', exact: true }).click();
    // Left while it is drawn, the engraver is ended.
    await page.getByTestId('sheet-state').getByText('Engraving').waitFor();
    await goTo(page, 'Phrases');
    await page.goBack();
    await drawn(page);
    expect(await page.getByTestId('sheet-layer').count()).toBe(5);
    const svg = await readFile(await saved(page, 'Save as SVG'), 'utf8');
    expect(svg.match(/@font-face/g)).toHaveLength(2);
    expect(late).toEqual([]);
    expect(faults).toEqual([]);
    await context.close();
  });

  it('is printed with every bar, embedded fonts, and nothing to press, on both papers', async () => {
    const { page, context, faults } = await openedAt('sheet/quay-steps');
    await drawn(page);
    for (const [paper, size] of [
      ['A4', [595, 842]],
      ['Letter', [612, 792]],
    ] as const) {
      await page.getByLabel(paper, { exact: true }).check();
      await page.waitForTimeout(300);
      await drawn(page);
      const pdf = await readPdf(await page.pdf({ preferCSSPageSize: true }));
      expect(new Set(pdf.pages.map((one) => String(one.size)))).toEqual(new Set([String(size)]));
      expect(pdf.pages[0]!.texts.length).toBeGreaterThan(100);
      expect(pdf.drawnFonts + pdf.filedFonts).toBeGreaterThan(0);
      expect(pdf.fontFiles).toBe(pdf.filedFonts);
      expect(pdf.images).toBe(0);
      // Five bars of four beats in each of five layers, and the beat with the pickup in two.
      expect(pdf.words.split(' ').filter((word) => word === '&')).toHaveLength(102);
      expect(pdf.words).toContain('5 Ghosts');
      expect(pdf.words).not.toMatch(/Save as|Practise|Leading hand|as the system/);
      const margin = 15 * (72 / 25.4);
      for (const { texts } of pdf.pages)
        for (const { str, transform, width } of texts) {
          const [, , , , x, y] = transform as number[];
          expect(x!, str).toBeGreaterThan(margin - 2);
          expect(x! + width, str).toBeLessThan(size[0] - margin + 2);
          expect(y!, str).toBeGreaterThan(margin - 2);
        }
    }
    expect(faults).toEqual([]);
    await context.close();
  });

  it('has music on every page', async () => {
    const { page, context, faults } = await openedAt('sheet/five-fathoms');
    await drawn(page);
    await page.getByLabel('Letter', { exact: true }).check();
    await page.waitForTimeout(300);
    await drawn(page);
    const pdf = await readPdf(await page.pdf({ preferCSSPageSize: true }));
    // A layer of five lines fills a page.
    expect(pdf.pages).toHaveLength(6);
    for (const { texts } of pdf.pages) expect(texts.length).toBeGreaterThan(100);
    expect(pdf.words.match(/Underlined/g)).toHaveLength(1);
    expect(faults).toEqual([]);
    await context.close();
  });

  it('is saved as SVG and PNG that stand alone', async () => {
    const { page, context, faults } = await openedAt('sheet/quay-steps');
    await drawn(page);
    const svg = await saved(page, 'Save as SVG');
    const png = await saved(page, 'Save as PNG');
    const alone = await context.newPage();
    const { requests } = watchPage(alone);
    await alone.goto(pathToFileURL(svg).href);
    const inside = await alone.evaluate(() => ({
      root: document.documentElement.localName,
      bars: document.querySelectorAll('.measure').length,
      texts: document.documentElement.textContent,
      missing: [...document.querySelectorAll('use')].filter(
        (use) => !document.getElementById(use.getAttribute('href')!.slice(1)),
      ).length,
    }));
    expect(inside).toMatchObject({ root: 'svg', bars: 27, missing: 0 });
    expect(inside.texts).not.toMatch(/[\uE000-\uF8FF]/);
    const faces = await alone.evaluate(async () => {
      await document.fonts.ready;
      return [...document.fonts].map(
        ({ family, status }) => `${family.replaceAll('"', '')} ${status}`,
      );
    });
    expect(faces).toEqual(['Sheet Sans loaded', 'Sheet Serif loaded']);
    expect(requests).toEqual([]);
    const ink = await alone.evaluate(
      async (data) => {
        const picture = new Image();
        picture.src = data;
        await picture.decode();
        const canvas = new OffscreenCanvas(picture.naturalWidth, picture.naturalHeight);
        const context = canvas.getContext('2d')!;
        context.drawImage(picture, 0, 0);
        const { data: dots } = context.getImageData(0, 0, canvas.width, canvas.height);
        let dark = 0;
        for (let i = 0; i < dots.length; i += 4) if (dots[i]! < 128) dark++;
        return { width: canvas.width, share: (dark * 4) / dots.length, alpha: dots[3] };
      },
      `data:image/png;base64,${(await readFile(png)).toString('base64')}`,
    );
    expect(ink.width).toBeGreaterThan(2000);
    expect(ink.alpha).toBe(255);
    expect(ink.share).toBeGreaterThan(0.01);
    expect(ink.share).toBeLessThan(0.1);
    expect(faults).toEqual([]);
    await context.close();
  });

  it('is saved as MusicXML and MIDI, as the command line writes them', async () => {
    const { page, context, faults } = await openedAt('sheet/quay-steps');
    const { phrase } = LIBRARY_LAYERS.find(({ name }) => name.startsWith('quay-steps'))!;
    const layers = phrase.layers.map((_, i) => i + 1);
    for (const [name, format] of [
      ['Save as MusicXML', 'musicxml'],
      ['Save as MIDI', 'mid'],
    ] as const) {
      const path = await saved(page, name);
      expect(basename(path)).toBe(`quay-steps.${format}`);
      const { content } = phraseAsMusic(phrase, format, { layers });
      expect(await readFile(path)).toEqual(Buffer.from(content));
    }
    expect(faults).toEqual([]);
    await context.close();
  });

  it('shows a title with markup as text', async () => {
    const { page, context, faults } = await openedAt('phrases');
    const title = '<img src=x onerror="document.title=1"> & <b>bold</b>';
    const file = {
      title,
      meter: '4/4',
      tempoBpm: 90,
      subdivision: 4,
      grouping: 'R L',
      layers: [{ name: '<i>Sticking</i>' }],
    };
    await openFile(page, 'phrase.json', Buffer.from(JSON.stringify(file)));
    await page.getByTestId('keep-phrases').click();
    await page.getByRole('heading', { level: 1, name: title }).waitFor();
    await page.getByRole('link', { name: 'Sheet', exact: true }).click();
    await drawn(page);
    expect(await page.getByTestId('sheet-title').textContent()).toBe(title);
    expect(await page.getByTestId('paper').locator('img, b, i').count()).toBe(0);
    const svg = await readFile(await saved(page, 'Save as SVG'), 'utf8');
    expect(svg).toContain('&lt;i&gt;Sticking&lt;/i&gt;');
    expect(faults).toEqual([]);
    await context.close();
  });

  it('says when the engraver does not come, and goes on when it does', async () => {
    const context = await browser.newContext({ viewport: { width: 1024, height: 640 } });
    const page = await context.newPage();
    await page.route(/sheet-worker/, (route) => route.abort());
    await page.goto(`${inject('address')}#sheet/quay-steps`, { waitUntil: 'networkidle' });
    await page.getByRole('alert').getByText(SHEET_FAILURES.notStarted).waitFor();
    await page.unrouteAll();
    await page.getByRole('button', { name: 'Try again' }).click();
    await drawn(page);
    expect(await page.getByRole('alert').count()).toBe(0);
    await context.close();
  });

  it('keeps what was chosen, and follows the leading hand', async () => {
    const { page, context } = await openedAt('sheet/quay-steps');
    await drawn(page);
    await page.getByLabel('one', { exact: true }).check();
    await page.getByLabel('R and L changed').check();
    await page.getByLabel('Bars').fill('2');
    await page.getByLabel('Bars').blur();
    await page.getByRole('switch', { name: 'Counts' }).uncheck();
    await page.reload();
    await drawn(page);
    await page.evaluate(axe.source);
    const found = await page.evaluate(() =>
      (window as unknown as { axe: typeof axe }).axe.run({ resultTypes: ['violations'] }),
    );
    expect(found.violations.map(({ id }) => id)).toEqual([]);
    expect(await page.getByTestId('sheet-layer').count()).toBe(1);
    expect(await page.locator('.measure').count()).toBe(2);
    expect(await page.locator('text.count').count()).toBe(0);
    expect(await page.locator('text.sticking').first().textContent()).toBe('L');
    await goTo(page, 'Phrases');
    await context.close();
  });
});

/** Quay Steps, layer 1, a stroke a quarter at 60. */
const TAKE_OF_A_MINUTE = writeTake({
  startedAt: '2026-05-04T18:00:00.000Z',
  phraseText: readFileSync(
    new URL('../../shared/phrases/quay-steps.json', import.meta.url),
    'utf8',
  ),
  passages: [{ fromBar: 1, layer: 1 }],
  tempos: [{ fromBeat: beats(0), bpm: 60 }],
  countInBars: 0,
  endUs: 60e6,
  kit: GENERAL_MIDI,
  deviceOffsetMs: 0,
  toleranceMs: undefined,
  reachMs: undefined,
  messages: Array.from({ length: 60 }, (_, i) => ({
    ...{ timeUs: i * 1e6, status: 0x99, data1: 38, data2: 80 },
  })),
});

describe.concurrent('other pages on paper', () => {
  it('the lane of a take is printed whole, from its first note to its last', async () => {
    const { page, context, faults } = await openedAt('phrases');
    await openFile(page, 'take.json', Buffer.from(TAKE_OF_A_MINUTE));
    await page.getByTestId('keep-take').click();
    await page.getByTestId('lane-table').waitFor({ state: 'attached' });
    const images = (await readPdf(await page.pdf())).images;
    // A minute in strips of some seconds each; what the screen shows is one of them.
    expect(images).toBeGreaterThanOrEqual(8);
    expect(faults).toEqual([]);
    await context.close();
  });

  it('the picture across the bar is printed whole, no bar in two', async () => {
    const { page, context, faults } = await openedAt('phrases/seven-fenders');
    await page.getByTestId('across').waitFor();
    const pdf = await readPdf(await page.pdf());
    const bars = pdf.words.match(/Bar \d+:/g) ?? [];
    expect(bars.length).toBeGreaterThan(3);
    expect(new Set(bars).size).toBe(bars.length);
    expect(pdf.words).not.toMatch(/Practise this|as the system|\bHear\b/);
    expect(faults).toEqual([]);
    await context.close();
  });
});
