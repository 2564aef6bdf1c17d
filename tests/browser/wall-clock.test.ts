import { expect, inject, it } from 'vitest';
import { goTo } from './page/app';
import { launchChromium } from './page/launch';
import { simulatedPlayerScript } from './page/simulated-player';
import { watchPage } from './page/watch-page';

const HOUR_MS = 3_600_000;

it('keeps takes readable and in order whose clock is set forward or back by hours in mid-take', async () => {
  const browser = await launchChromium();
  const page = await browser.newPage();
  const { faults } = watchPage(page);
  await page.addInitScript(() => {
    const noon = Date.UTC(2026, 4, 4, 12);
    const started = performance.now();
    Object.assign(window, { shiftMs: 0 });
    Date.now = () =>
      noon + performance.now() - started + (window as unknown as { shiftMs: number }).shiftMs;
  });
  await page.addInitScript(simulatedPlayerScript());
  await page.goto(inject('address'));
  // Started at noon, at four and, once it has been set back in mid-take, at eleven.
  for (const shift of [4 * HOUR_MS, -HOUR_MS, -HOUR_MS]) {
    await page.getByTestId('start').click();
    await page.waitForTimeout(3500);
    await page.evaluate((shiftMs) => Object.assign(window, { shiftMs }), shift);
    await page.waitForTimeout(2000);
    await page.getByRole('button', { name: 'Stop' }).click();
    await page.getByTestId('last-take').waitFor();
    expect(await page.getByTestId('last-take').textContent()).toMatch(/In the log:\s+0:0\d of/);
  }
  const hourOf = await page.evaluate(
    () =>
      new Promise<Record<string, string>>((resolve) => {
        const opening = indexedDB.open('layered-phrases');
        opening.onsuccess = () => {
          const reading = opening.result.transaction('takes').objectStore('takes').getAll();
          reading.onsuccess = () =>
            resolve(
              Object.fromEntries(
                (reading.result as { id: string; startedAt: string }[]).map((take) => [
                  `#log/${take.id}`,
                  take.startedAt.slice(0, 13),
                ]),
              ),
            );
        };
      }),
  );
  await goTo(page, 'Log');
  const rows = page.getByTestId('take-row');
  await rows.nth(2).waitFor();
  const shown = await rows.evaluateAll((all) =>
    all.map((row) => row.querySelector('a')!.getAttribute('href')!),
  );
  expect(shown.map((address) => hourOf[address])).toEqual([
    '2026-05-04T16',
    '2026-05-04T12',
    '2026-05-04T11',
  ]);
  for (let n = 0; n < 3; n++) {
    await rows.nth(n).getByRole('link').first().click();
    await page.getByRole('button', { name: 'MIDI file' }).waitFor();
    await page.goBack();
  }
  expect(faults).toEqual([]);
  await browser.close();
});
