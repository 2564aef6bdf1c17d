import { ok } from 'node:assert/strict';
import { firstLoad } from '../browser/page/first-load';
import { launchChromium } from '../browser/page/launch';
import { serveApp } from '../browser/page/serve-app';
import { duration, p50, type BenchRow } from './bench-row';

const OPENED = 5;
/** A processor this many times slower than the machine's stands for an old laptop. */
const SLOWDOWN = 4;
const AIM_MS = 1000;

/** From the address to a start button that can be pressed; each time in a browser that has never seen the page. */
export async function startRow(): Promise<BenchRow> {
  const app = await serveApp();
  const tookMs: number[] = [];
  let scriptBytes = 0;
  try {
    for (let time = 0; time < OPENED; time++) {
      const browser = await launchChromium();
      try {
        const load = await firstLoad(browser, app.address, app.folder, SLOWDOWN);
        ok(load.startMs > 0 && load.scripts.length > 0, 'the start button can be pressed');
        tookMs.push(load.startMs);
        scriptBytes = load.scriptBytes;
      } finally {
        await browser.close();
      }
    }
  } finally {
    await app.close();
  }
  return {
    name: `time to the start button, processor slowed ${SLOWDOWN} times, median of ${OPENED}`,
    asserted: `the start button takes a click, ${OPENED} times cold`,
    p50: duration(p50(tookMs)),
    tail: `longest ${duration(Math.max(...tookMs))}`,
    aim: `p50 < ${duration(AIM_MS)}`,
    met: p50(tookMs) < AIM_MS,
    note: `Served from this machine; ${(scriptBytes / 1000).toFixed(1)} kB of scripts, gzip, are asked for until then.`,
  };
}
