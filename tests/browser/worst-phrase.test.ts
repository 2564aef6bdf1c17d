import type { Browser, CDPSession, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import { launchChromium } from './page/launch';
import { openFile } from './page/app';
import { simulatedPlayerScript } from './page/simulated-player';
import { slowFramesScript } from './page/slow-frames';
import { watchPage } from './page/watch-page';

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

const RIDE = { where: { limb: 'R' }, set: { voice: 'ride' } };
const INSIDE = {
  where: { any: Array.from({ length: 34 }, () => ({ limb: 'R' })) },
  set: { voice: 'ride' },
};
const head = { meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R', cycle: 512 };

/** As much work as a phrase may ask for (tests/phrase/layers/layer-work.test.ts has what is refused beyond). */
const WORST = [
  {
    ...head,
    title: 'Full hold',
    layers: Array.from({ length: 32 }, (_, i) => ({
      name: `Layer ${i + 1}`,
      changes: Array.from({ length: 64 }, (_, j) => (i === 0 && j < 2 ? INSIDE : RIDE)),
    })),
  },
  {
    ...head,
    title: 'Long way round',
    layers: [
      {
        name: 'Round',
        changes: [{ where: { every: { partials: 537, at: [1] } }, set: { limb: 'L' } }],
      },
    ],
  },
];

const MOST_MS = 1000;

/** The page's processor time of some work, ms: others work on the machine as well. */
async function processorMs(page: Page, session: CDPSession, work: () => Promise<unknown>) {
  const now = async () => {
    const { metrics } = await session.send('Performance.getMetrics');
    return 1000 * metrics.find(({ name }) => name === 'TaskDuration')!.value;
  };
  const before = await now();
  await work();
  await page.evaluate(
    () => new Promise((resolve) => requestIdleCallback(() => setTimeout(resolve, 300))),
  );
  return (await now()) - before;
}

it.each(WORST)(
  'shows every screen on the worst legal phrase within a second: $title',
  async (phrase) => {
    const context = await browser.newContext({ viewport: { width: 1024, height: 640 } });
    const page = await context.newPage();
    const { faults } = watchPage(page);
    await page.addInitScript(simulatedPlayerScript());
    await page.addInitScript(slowFramesScript());
    await page.goto(inject('address'));
    await page.getByTestId('start').waitFor();
    const session = await context.newCDPSession(page);
    await session.send('Performance.enable', { timeDomain: 'threadTicks' });
    const heading = page.getByRole('heading', { level: 1 });
    const took: Record<string, number> = {};
    const timed = async (name: string, work: () => Promise<unknown>) => {
      took[name] = Math.round(await processorMs(page, session, work));
    };
    await timed('opened', async () => {
      await openFile(page, 'worst.json', Buffer.from(JSON.stringify(phrase)));
      await page.getByTestId('keep-phrases').waitFor();
    });
    await timed('kept', async () => {
      await page.getByTestId('keep-phrases').click();
      await heading.getByText(phrase.title).waitFor();
    });
    const id = new URL(page.url()).hash.replace('#phrases/', '');
    for (const screen of ['phrases', 'compose', 'vary', 'sheet']) {
      await page.goto(`${inject('address')}#help`);
      await heading.getByText('Help').waitFor();
      await timed(screen, async () => {
        await page.goto(`${inject('address')}#${screen}/${id}`);
        await heading.getByText(phrase.title).waitFor();
      });
    }
    await page.goto(`${inject('address')}#phrases/${id}`);
    await timed('practise', async () => {
      await page.getByTestId('practise-this').click();
      await page.getByTestId('start').waitFor();
    });
    await timed('start', async () => {
      await page.getByTestId('start').click();
      await page.getByRole('button', { name: 'Stop' }).waitFor();
    });
    expect(Object.entries(took).filter(([, ms]) => ms >= MOST_MS)).toEqual([]);
    expect(faults).toEqual([]);
    await context.close();
  },
);
