import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, inject, it } from 'vitest';
import { clickSamples } from '../../src/sound/synth/clicks';
import { MICROPHONE_PROBLEMS } from '../../src/sound/microphone/microphone-problems';
import { microphoneWords } from '../../src/view/screens/kit/offset/offset-words';
import { chance } from '../../src/time/chance';
import { connectKit, openApp } from './page/app';
import { numbersIn } from './page/numbers-in';
import { playToClicks } from './page/heard-clicks';
import { launchChromium } from './page/launch';
import { wavFile } from './page/wav-file';

const RATE = 48_000;
const INTERVAL_SECONDS = 0.75;
/** In the recording the pad is struck so long after each click. */
const STRIKE_AFTER_MS = 350;
/**
 * Where in a period of the recording the click is. The page's clicks begin two periods after it has begun
 * to listen, some tenths of a second after the file began: so the click is found late by 0 to 500 ms.
 */
const CLICK_AT_SECONDS = 0.5;
/** And its MIDI stamp says so much more: what the measurement must find. */
const RIG_MS = 37;
const CLICKS = 40;
const SEED = 5;
const RECORDING = microphoneWords({ phase: 'recording', outcome: undefined, problem: undefined });
const folder = mkdtempSync(join(tmpdir(), 'microphone-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** One click and one strike a period: what one microphone would hear of page and pad, over and over. */
function onePeriod(): Float32Array {
  const { normal } = chance(SEED);
  const samples = new Float32Array(INTERVAL_SECONDS * RATE).map(() => 0.001 * normal());
  const lay = (sound: Float32Array, seconds: number) =>
    sound.forEach((sample, i) => {
      samples[(Math.round(seconds * RATE) + i) % samples.length]! += sample;
    });
  lay(
    clickSamples('bar', RATE).map((sample) => 0.5 * sample),
    CLICK_AT_SECONDS,
  );
  const burst = new Float32Array(0.05 * RATE).map(
    (_, i) => 0.25 * Math.min(1, i / 20) * normal() * Math.exp(-i / RATE / 0.006),
  );
  lay(burst, CLICK_AT_SECONDS + STRIKE_AFTER_MS / 1000);
  return samples;
}

/** The browser's make-believe microphone plays the file in a circle from when it is opened. */
describe.concurrent('the microphone in Chromium', () => {
  it('hears a recording of clicks and strikes, and finds by how much the stamps are late', async () => {
    const path = join(folder, 'heard.wav');
    const period = onePeriod();
    const sound = new Float32Array(80 * period.length);
    for (let k = 0; k < 80; k++) sound.set(period, k * period.length);
    writeFileSync(path, wavFile(sound, RATE));
    const browser = await launchChromium(
      '--use-fake-ui-for-media-stream',
      '--use-fake-device-for-media-stream',
      `--use-file-for-fake-audio-capture=${path}`,
    );
    const { page, faults, close } = await openApp(browser);
    const requests: string[] = [];
    page.on('request', (request) => {
      // A blob is a part of the page itself, as its worker is: nothing goes anywhere.
      if (!request.url().startsWith('blob:')) requests.push(request.url());
    });
    await connectKit(page);
    await page.getByTestId('to-offset').click();
    await page.getByTestId('microphone-begin').click();
    await page.getByText(RECORDING).waitFor();
    await playToClicks(page, 0, Array<number>(CLICKS).fill(STRIKE_AFTER_MS + RIG_MS));
    await page.getByRole('button', { name: 'Measure again' }).waitFor();
    const [offset] = numbersIn(await page.getByTestId('microphone-state').innerText());
    expect(Math.abs(offset! - RIG_MS)).toBeLessThan(1.5);
    const figures = (await page.getByTestId('microphone-figures').textContent())!;
    const [, lower, upper, strokes] = numbersIn(figures);
    expect(lower!).toBeLessThanOrEqual(RIG_MS);
    expect(upper!).toBeGreaterThanOrEqual(RIG_MS);
    expect(upper! - lower!).toBeLessThan(2.5);
    expect(strokes!).toBeGreaterThanOrEqual(20);
    await page.getByTestId('microphone-keep').click();
    await page
      .getByTestId('rig-how')
      .getByText(/microphone\b.*\b\d{4}\b/)
      .waitFor();
    const [kept] = numbersIn((await page.getByTestId('rig-offset').textContent())!);
    expect(Math.abs(kept! - RIG_MS)).toBeLessThan(1.5);
    // Nothing of the sound is kept: neither in the browser's stores nor sent.
    const databases = await page.evaluate(() => indexedDB.databases());
    expect(databases.map(({ name }) => name).sort()).toEqual([
      'layered-phrases',
      'layered-phrases.folder',
    ]);
    expect(requests.every((url) => url.startsWith(inject('address')))).toBe(true);
    expect(faults).toEqual([]);
    await close();
    await browser.close();
  });

  it('says what to do when it is refused, and when there is none', async () => {
    const refused = await launchChromium(
      '--use-fake-device-for-media-stream',
      '--deny-permission-prompts',
    );
    const denied = await openApp(refused);
    await connectKit(denied.page);
    await denied.page.getByTestId('to-offset').click();
    await denied.page.getByTestId('microphone-begin').click();
    await denied.page.getByText(MICROPHONE_PROBLEMS.DENIED).waitFor();
    await denied.close();
    await refused.close();

    const browser = await launchChromium('--use-fake-ui-for-media-stream');
    const none = await openApp(
      browser,
      `navigator.mediaDevices.getUserMedia = () =>
         Promise.reject(new DOMException('no device', 'NotFoundError'));`,
    );
    await connectKit(none.page);
    await none.page.getByTestId('to-offset').click();
    await none.page.getByTestId('microphone-begin').click();
    await none.page.getByText(MICROPHONE_PROBLEMS.NONE).waitFor();
    await none.close();
    await browser.close();
  });
});
