import { ok } from 'node:assert/strict';
import type { Page } from 'playwright-core';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import type { ChangeFile, PhraseFile } from '../../src/phrase/model/phrase-file';
import { practisePhrase } from '../browser/page/app';
import { duration, p50, timed, type BenchRow } from './bench-row';

const RUNS = 5;
const PARSED_WITHIN_MS = 500;
const SHOWN_WITHIN_MS = 1000;

const HEAD = { meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R', cycle: 512 } as const;
const RIDE: ChangeFile = { where: { limb: 'R' }, set: { voice: 'ride' } };

/** Phrases that take as much work as a phrase may: of layers, of cycles, of lists. */
const HEAVIEST: readonly PhraseFile[] = [
  {
    ...HEAD,
    title: 'Every layer and change',
    layers: Array.from({ length: 32 }, (_, i) => ({
      name: `Layer ${i + 1}`,
      changes: Array<ChangeFile>(64).fill(RIDE),
    })),
  },
  {
    ...HEAD,
    title: 'Every cycle',
    layers: [
      {
        name: 'Round',
        changes: [{ where: { every: { partials: 537, at: [1] } }, set: { limb: 'L' } }],
      },
    ],
  },
  {
    ...HEAD,
    title: 'Long lists',
    layers: Array.from({ length: 8 }, (_, i) => ({
      name: `Layer ${i + 1}`,
      changes: Array.from({ length: 8 }, (__, k): ChangeFile => ({
        where: { positions: Array.from({ length: 256 }, (___, at) => ((2 * at + k) % 512) + 1) },
        set: { voice: k % 2 === 0 ? 'ride' : 'crash', level: (i + k) % 3 === 0 ? 'ghost' : 'tap' },
      })),
    })),
  },
];

export function heavyParseRow(): BenchRow {
  const took = HEAVIEST.map((file) => {
    const text = JSON.stringify(file);
    ok(parsePhrase(text).ok, `"${file.title}" is a phrase`);
    return timed(RUNS, () => parsePhrase(text), 1);
  });
  const slowest = Math.max(...took.map(p50));
  return {
    name: 'heaviest legal phrases parsed',
    asserted: `${HEAVIEST.length} phrases, at the limits of layers, cycles and lists`,
    p50: duration(slowest),
    tail: `longest ${duration(Math.max(...took.flat()))}`,
    aim: `each < ${PARSED_WITHIN_MS} ms`,
    met: slowest < PARSED_WITHIN_MS,
  };
}

/** Each screen of each of these phrases, from the press to the frame that shows it. */
export async function heavyScreensRow(page: Page): Promise<BenchRow> {
  const shown: { readonly what: string; readonly ms: number }[] = [];
  for (const phrase of HEAVIEST) {
    await practisePhrase(page, phrase);
    await page.evaluate(() => (location.hash = '#phrases'));
    const link = page.getByRole('link', { name: phrase.title }).first();
    const id = (await link.getAttribute('href'))!.split('/').at(-1)!;
    for (const screen of ['phrases', 'compose', 'vary'] as const) {
      const ms = await page.evaluate(shownAfter, `#${screen}/${id}`);
      ok(await page.getByText(phrase.title).first().isVisible(), `${screen} shows ${phrase.title}`);
      shown.push({ what: `${screen} of "${phrase.title}"`, ms });
    }
  }
  const slowest = shown.reduce((a, b) => (b.ms > a.ms ? b : a));
  return {
    name: 'heaviest legal phrases, slowest screen',
    asserted: `${shown.length} screens show the phrase`,
    p50: duration(p50(shown.map(({ ms }) => ms))),
    tail: `longest ${duration(slowest.ms)}`,
    aim: `each < ${SHOWN_WITHIN_MS} ms`,
    met: slowest.ms < SHOWN_WITHIN_MS,
    note: `Slowest is ${slowest.what}.`,
  };
}

/** In the page: goes to an address, and how long it takes until a frame has been drawn after all that comes of it. */
async function shownAfter(hash: string): Promise<number> {
  const from = performance.now();
  location.hash = hash;
  const frame = () => new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
  // The address is heard of a task later, and a screen is drawn a frame after that.
  await frame();
  await frame();
  return performance.now() - from;
}
