import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { MIDI_STATES } from '../../src/midi/midi-problems';
import { fakeMidiScript } from '../midi/fake-midi-access';
import { goTo, play, practisePhrase, startPlaying, tableRows } from './page/app';
import { tabTo } from './page/by-keyboard';
import { heardClicksScript } from './page/heard-clicks';
import { launchChromium } from './page/launch';
import { slowFramesScript } from './page/slow-frames';
import { watchPage } from './page/watch-page';

/** From the first sight of the app, without what the browser asks: from the brief of the first start. */
const MOST_CLICKS = 3;
const SHORT_MS = 120_000;
const LONG_MS = 360_000;
/** Eighths: two of the stick on the hi-hat, closed and open, and the bass drum. */
const HAT_PHRASE = {
  title: 'Two Bollards',
  meter: '4/4',
  tempoBpm: 120,
  subdivision: 2,
  grouping: 'R L R K',
  layers: [
    {
      name: 'Hat',
      changes: [
        { where: { limb: 'L' }, set: { voice: 'hi-hat closed' } },
        { where: { positions: [3] }, set: { voice: 'hi-hat open' } },
      ],
    },
  ],
};

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

/** The app as somebody sees it who has never been here; a click of the mouse is counted. */
async function openAsNewcomer(isPlugged = true) {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  const { faults } = watchPage(page);
  await page.addInitScript(fakeMidiScript());
  if (isPlugged) await page.addInitScript(() => window.fakeMidi.plug('kit', 'Harbour kit'));
  await page.addInitScript(heardClicksScript());
  await page.addInitScript(slowFramesScript());
  await page.addInitScript(() => {
    Object.assign(window, { mouseClicks: 0 });
    addEventListener(
      'click',
      ({ isTrusted, detail }) => {
        // A press of Enter is a click without a count.
        if (isTrusted && detail > 0) (window as unknown as { mouseClicks: number }).mouseClicks++;
      },
      true,
    );
  });
  await page.goto(inject('address'), { waitUntil: 'networkidle' });
  const clicks = () =>
    page.evaluate(() => (window as unknown as { mouseClicks: number }).mouseClicks);
  const done = async () => {
    expect(faults).toEqual([]);
    await context.close();
  };
  return { page, clicks, done };
}

const asks = (page: Page, words: string | RegExp) =>
  page.getByTestId('first-ask').getByText(words).waitFor();
const says = (page: Page, words: string | RegExp) =>
  page.getByTestId('first-under').getByText(words).waitFor();
const send = (page: Page, ...bytes: number[]) =>
  page.evaluate((sent) => window.fakeMidi.emit('kit', sent, performance.now()), bytes);
/** A stroke, when a player has read what is asked. */
async function strike(page: Page, note: number, velocity = 90, afterMs = 1000): Promise<void> {
  await page.waitForTimeout(afterMs);
  await send(page, 0x99, note, velocity);
}
async function moveFoot(page: Page, value: number): Promise<void> {
  await page.waitForTimeout(200);
  await send(page, 0xb9, 4, value);
}

async function beginOnKit(page: Page): Promise<void> {
  await page.getByTestId('on-my-kit').click();
  await asks(page, 'Strike any pad.');
  await strike(page, 38);
}

/** The pads of Quay Steps, as a usual kit sends them. */
async function strikePads(page: Page): Promise<void> {
  for (const [words, note] of [
    ['Play the bass drum.', 36],
    ['Strike the snare.', 38],
    ['Strike the high tom.', 48],
    ['Strike the floor tom.', 43],
  ] as const) {
    await asks(page, words);
    await strike(page, note);
  }
}

/** Strikes to start, plays the first bars of the sticking as written, and waits for the first verdict on a layer. */
async function playFirstLayer(page: Page): Promise<void> {
  await asks(page, 'Strike any pad to start.');
  const originMs = await startPlaying(page, () => strike(page, 38, 90, 1200));
  const partialMs = 15_000 / 88;
  void play(
    page,
    Array.from({ length: 40 }, (_, i) => ({
      atMs: originMs + i * partialMs,
      note: (i % 20) % 5 === 4 ? 36 : 38,
      velocity: 80,
    })),
  ).catch(() => undefined);
  await page.getByTestId('gate').waitFor();
  const inTime = async () =>
    (await tableRows(page)).filter(({ verdict }) => verdict === 'in time').length;
  await expect.poll(inTime).toBeGreaterThan(10);
}

describe.concurrent('the first start', () => {
  it('is answered by striking alone, all steps, with one click', async () => {
    const { page, clicks, done } = await openAsNewcomer();
    const began = Date.now();
    await beginOnKit(page);
    await strikePads(page);
    for (const [words, velocities] of [
      ['your ghosts', [20, 24, 28, 26, 30, 22]],
      ['your taps', [60, 62, 66, 70, 64, 68]],
      ['your accents', [100, 104, 110, 112, 108, 106]],
    ] as const) {
      await asks(page, words);
      await page.waitForTimeout(1000);
      for (const velocity of velocities) await strike(page, 38, velocity, 200);
    }
    await says(page, /^Ghosts up to 44, accents from 85, on snare head and the pads like it\.$/);
    await strike(page, 38, 90, 1200);
    await asks(page, 'Strike one pad to hear the click.');
    const first = await page.evaluate(() => window.heardClicks.queued);
    await strike(page, 38);
    await asks(page, 'One stroke on every click.');
    await page.waitForFunction((k) => window.heardClicks.queued > k, first);
    const heardMs = await page.evaluate((k) => window.heardClicks.heardMs(k), first);
    // 12 ms late, like a rig that takes its time.
    const strokes = Array.from({ length: 34 }, (_, i) => ({
      atMs: heardMs + 600 * i + 12 + (i % 3),
      note: 38,
      velocity: 80,
    }));
    void play(page, strokes).catch(() => undefined);
    await says(page, /^Rig and habit together: \+\d\d?\.\d ms\./);
    await page.waitForTimeout(4000);
    // Nobody stops at once: what is played on answers nothing.
    await asks(page, 'Strike any pad to keep it.');
    await strike(page, 38, 90, 1200);
    await playFirstLayer(page);
    expect(await clicks()).toBe(1);
    expect(Date.now() - began).toBeLessThan(LONG_MS);
    await page.getByRole('button', { name: 'Stop' }).press('Enter');
    // Known to be done, the next day too.
    await page.reload({ waitUntil: 'networkidle' });
    expect(await page.getByTestId('who-plays').count()).toBe(0);
    await goTo(page, 'Kit');
    await page.getByTestId('to-first-start').click();
    for (const step of ['kit', 'pads', 'levels', 'offset', 'play'])
      await page.getByTestId(`step-${step}`).getByText('done').waitFor();
    await done();
  });

  it('leaves levels and offset out with one press', async () => {
    const { page, clicks, done } = await openAsNewcomer();
    const began = Date.now();
    await beginOnKit(page);
    await strikePads(page);
    await asks(page, 'your ghosts');
    await page.getByTestId('straight').click();
    await playFirstLayer(page);
    expect(await clicks()).toBeLessThanOrEqual(MOST_CLICKS);
    expect(await clicks()).toBe(2);
    expect(Date.now() - began).toBeLessThan(SHORT_MS);
    await done();
  });

  it('leaves out by waiting, and by the last pad struck again', async () => {
    const { page, clicks, done } = await openAsNewcomer();
    await beginOnKit(page);
    await asks(page, 'Play the bass drum.');
    await strike(page, 36);
    await asks(page, 'Strike the snare.');
    await strike(page, 38);
    await asks(page, 'Strike the high tom.');
    await strike(page, 38);
    await asks(page, 'Strike the floor tom.');
    await says(page, /^Not on your kit: high tom, floor tom\./);
    await strike(page, 36, 90, 1200);
    await asks(page, 'your ghosts');
    await asks(page, 'Strike one pad to hear the click.');
    await playFirstLayer(page);
    expect(await clicks()).toBe(1);
    await page.getByRole('button', { name: 'Stop' }).press('Enter');
    await page.getByTestId('pads-lacking').getByText('high tom, floor tom').waitFor();
    await done();
  });

  it('waits for a kit that is not there, goes on by itself once it is, and goes without', async () => {
    const { page, done } = await openAsNewcomer(false);
    await page.getByTestId('on-my-kit').click();
    await asks(page, MIDI_STATES['no device'].sentence);
    await page.evaluate(() => window.fakeMidi.plug('kit', 'Harbour kit'));
    await asks(page, 'Strike any pad.');
    await page.evaluate(() => window.fakeMidi.unplug('kit'));
    await asks(page, 'Harbour kit is unplugged.');
    await page.getByRole('button', { name: 'Have the simulated player play' }).click();
    await page.getByTestId('start').click();
    await page.getByTestId('status').getByText('Playing').waitFor();
    await done();
  });

  it('says what to do where the browser denies the kit, and goes on once it is allowed', async () => {
    const { page, done } = await openAsNewcomer();
    await page.evaluate(() => window.fakeMidi.refuse('NotAllowedError'));
    await page.getByTestId('on-my-kit').click();
    await asks(page, MIDI_STATES.denied.sentence);
    await says(page, MIDI_STATES.denied.remedy);
    await page.evaluate(() => window.fakeMidi.refuse(undefined));
    await page.getByRole('button', { name: 'Try again' }).click();
    await asks(page, 'Strike any pad.');
    await done();
  });

  it('takes the one of two devices that is struck', async () => {
    const { page, done } = await openAsNewcomer();
    await page.evaluate(() => window.fakeMidi.plug('keys', 'Organ'));
    await page.getByTestId('on-my-kit').click();
    await asks(page, MIDI_STATES.choose.sentence);
    await says(page, MIDI_STATES.choose.remedy);
    await strike(page, 38);
    await says(page, 'Listening to Harbour kit.');
    await strike(page, 38);
    await asks(page, 'Play the bass drum.');
    await done();
  });
});

describe.concurrent('a pedal', () => {
  /** Up to the hi-hat of a phrase that needs it, with the pedal down. */
  async function toTheHat(down: number | undefined) {
    const opened = await openAsNewcomer();
    const { page } = opened;
    await practisePhrase(page, HAT_PHRASE);
    await beginOnKit(page);
    await asks(page, 'Play the bass drum.');
    await strike(page, 36);
    await asks(page, 'Strike the snare.');
    await strike(page, 38);
    await asks(page, /^Close the hi-hat with the foot/);
    if (down !== undefined) await moveFoot(page, down);
    await strike(page, 44, 70);
    await asks(page, 'Keep the pedal down and strike the hi-hat.');
    return opened;
  }
  /** Plays bar 1, closed and open as they are read, and says what was struck. */
  async function struckInBarOne(page: Page, hat: readonly (readonly number[])[]) {
    await page.getByTestId('straight').click();
    await asks(page, 'Strike any pad to start.');
    const originMs = await startPlaying(page, () => strike(page, 38, 90, 1200));
    await page.evaluate(
      ({ messages, origin }) => {
        for (const [afterMs = 0, ...bytes] of messages)
          setTimeout(
            () => window.fakeMidi.emit('kit', bytes, origin + afterMs),
            origin + afterMs - performance.now(),
          );
      },
      { messages: hat.map((message) => [...message]), origin: originMs },
    );
    await page.waitForFunction(
      () => document.querySelectorAll('tr[data-note][data-verdict="in time"]').length >= 2,
    );
    const rows = await tableRows(page);
    return rows.slice(0, 4).map(({ struck, voice, verdict }) => [voice, verdict, struck]);
  }

  it('that is reversed by its notes is told, and read the right way round', async () => {
    const { page, done } = await toTheHat(undefined);
    await strike(page, 46);
    await asks(page, 'Take your foot off the pedal and strike the hi-hat.');
    await strike(page, 42);
    await says(page, /^The pedal is reversed/);
    await strike(page, 36, 90, 1200);
    await asks(page, 'your ghosts');
    await goTo(page, 'Kit');
    const map = page.getByRole('region', { name: 'Note map' });
    const row = (note: number) =>
      map.locator('tr', { has: page.locator(`td:first-child:text-is("${note}")`) });
    expect(await row(46).textContent()).toContain('hi-hat closed');
    expect(await row(26).textContent()).toContain('hi-hat closed');
    expect(await row(42).textContent()).toContain('hi-hat open');
    await done();
  });

  it('that is reversed by its controller is told, and a hat of one note is read by it', async () => {
    const { page, done } = await toTheHat(3);
    await strike(page, 42);
    await asks(page, 'Take your foot off the pedal and strike the hi-hat.');
    await moveFoot(page, 120);
    await strike(page, 42);
    await says(page, /^The pedal's controller is reversed/);
    await strike(page, 36, 90, 1200);
    await asks(page, 'your ghosts');
    const struck = await struckInBarOne(page, [
      [200, 0xb9, 4, 3],
      [250, 0x99, 42, 80],
      [400, 0xb9, 4, 120],
      [500, 0x99, 42, 80],
    ]);
    expect(struck[1]).toEqual(['hi-hat closed', 'in time', '']);
    expect(struck[2]).toEqual(['hi-hat open', 'in time', '']);
    await done();
  });

  it('that is stuck is told, with what to do', async () => {
    const { page, done } = await toTheHat(64);
    await strike(page, 42);
    await asks(page, 'Take your foot off the pedal and strike the hi-hat.');
    await moveFoot(page, 66);
    await strike(page, 42);
    await says(page, /^Not on your kit: hi-hat open\..*stayed at 66.*calibrate the hi-hat/);
    await done();
  });
});

describe.concurrent('every step', () => {
  it('is reached and left by the keyboard alone', async () => {
    const { page, clicks, done } = await openAsNewcomer();
    await tabTo(page, 'Me, on my kit');
    await page.keyboard.press('Enter');
    await asks(page, 'Strike any pad.');
    await strike(page, 38);
    await asks(page, 'Play the bass drum.');
    for (let pad = 0; pad < 4; pad++) {
      await tabTo(page, 'Not on my kit', pad === 0 ? 'Tab' : 'Shift+Tab');
      await page.keyboard.press('Enter');
      await page.keyboard.press('Tab');
    }
    await asks(page, 'Nothing arrived.');
    await tabTo(page, /^Levels/, 'Shift+Tab');
    await page.keyboard.press('Enter');
    await asks(page, 'your ghosts');
    await tabTo(page, 'Skip levels and offset');
    await page.keyboard.press('Enter');
    await asks(page, 'Strike any pad to start.');
    await tabTo(page, 'Start');
    await page.keyboard.press('Enter');
    await page.getByTestId('status').getByText('Playing').waitFor();
    expect(await clicks()).toBe(0);
    await done();
  });

  it('fits from 320 to 1440 px, and is read from the throne', async () => {
    const { page, done } = await openAsNewcomer();
    const looks = async () => {
      for (const width of [320, 390, 1440]) {
        await page.setViewportSize({ width, height: 844 });
        const over = () =>
          page.evaluate(
            () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
          );
        // What is as wide as the page was learns of it a frame later.
        await expect.poll(over, { message: `${width} px at ${page.url()}` }).toBeLessThanOrEqual(0);
      }
      // Capitals of 0.66 em on a 24 inch screen of 1920 px (0.277 mm each): 5 mm and more.
      for (const one of await page.getByTestId(/^first-(ask|under)$|^wait-line$/).all()) {
        const px = await one.evaluate((node) => Number.parseFloat(getComputedStyle(node).fontSize));
        expect(px * 0.66 * 0.277).toBeGreaterThanOrEqual(5);
      }
    };
    const question = page.getByTestId('who-plays');
    await question.waitFor();
    for (const height of [600, 844]) {
      await page.setViewportSize({ width: 320, height });
      const hidden = await question.evaluate((card) => card.scrollHeight - card.clientHeight);
      expect(hidden, `320 by ${height} px`).toBeLessThanOrEqual(0);
    }
    await looks();
    await beginOnKit(page);
    await asks(page, 'Play the bass drum.');
    await looks();
    await page.getByTestId('step-levels').click();
    await looks();
    await page.getByTestId('step-offset').click();
    await looks();
    await page.getByTestId('step-play').click();
    await looks();
    await page.getByTestId('step-kit').click();
    await looks();
    await page.evaluate(() => window.fakeMidi.unplug('kit'));
    await asks(page, 'is unplugged');
    await looks();
    await done();
  });
});
