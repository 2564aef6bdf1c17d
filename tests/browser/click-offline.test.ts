import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { beats } from '../../src/time/beats';
import { tempoMap } from '../../src/time/tempo';
import type { OfflineClicks } from './page/click-offline-page';
import { launchChromium } from './page/launch';

/** The page's own code as one script that sets `clickOffline`. */
async function bundle(): Promise<string> {
  const built = await build({
    configFile: false,
    logLevel: 'error',
    build: {
      write: false,
      minify: false,
      lib: {
        entry: fileURLToPath(new URL('./page/click-offline-page.ts', import.meta.url)),
        formats: ['iife'],
        name: 'clickOffline',
      },
    },
  });
  const [first] = Array.isArray(built) ? built : [built];
  if (!first || !('output' in first)) throw new Error('The page for the clicks was not built.');
  return first.output[0].code;
}

const SAMPLE_RATE = 48_000;
const PPM = 120;
/** Audio time 0 is performance time 10 s, and bar 1 beat 1 is heard a second after that. */
const OFFSET_MS = -10_000;
const ORIGIN_MS = 11_000;
const TEMPOS = [
  { fromBeat: 0, bpm: 133 },
  { fromBeat: 400, bpm: 97.3 },
  { fromBeat: 700, bpm: 171 },
];

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

describe('the click, rendered by Chromium', () => {
  it('begins within one sample of its time over ten minutes, through tempo changes, with clocks 120 ppm apart', async () => {
    const tempo = tempoMap(TEMPOS.map(({ fromBeat, bpm }) => ({ fromBeat: beats(fromBeat), bpm })));
    const timesUs: number[] = [];
    // Worked in plain seconds beside the tempo map: performance time, and from it audio time.
    const intended: number[] = [];
    for (let beat = 0, seconds = 0; seconds < 600; beat++) {
      timesUs.push(tempo.usAt(beats(beat)));
      const performanceSeconds = ORIGIN_MS / 1000 + seconds;
      intended.push((OFFSET_MS / 1000 + performanceSeconds * (1 + PPM * 1e-6)) * SAMPLE_RATE);
      seconds += 60 / TEMPOS.findLast(({ fromBeat }) => fromBeat <= beat)!.bpm;
    }
    const input: OfflineClicks = {
      sampleRate: SAMPLE_RATE,
      lengthSeconds: 602,
      timesUs,
      offsetMs: OFFSET_MS,
      ppm: PPM,
      originPerformanceMs: ORIGIN_MS,
    };
    const page = await browser.newPage();
    await page.addScriptTag({ content: await bundle() });
    const onsets = await page.evaluate(
      (given) =>
        (
          globalThis as unknown as {
            clickOffline: typeof import('./page/click-offline-page');
          }
        ).clickOffline.renderClicks(given),
      input,
    );
    await page.close();
    expect(onsets).toHaveLength(intended.length);
    const errors = onsets.map((onset, n) => Math.abs(onset - intended[n]!));
    expect(Math.max(...errors)).toBeLessThanOrEqual(1);
  });
});
