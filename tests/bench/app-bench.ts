import { deepStrictEqual, equal, ok } from 'node:assert/strict';
import type { Page } from 'playwright-core';
import type { PhraseFile } from '../../src/phrase/model/phrase-file';
import { connectKit, practisePhrase, tableRows } from '../browser/page/app';
import { STORM_TIDE } from './bench-phrases';
import { duration, p50, p95, p99, type BenchRow } from './bench-row';
import { verdictFrames } from './page/verdict-frames';

// How this is measured. The built app runs in real, headless Chromium. Its frames are timed from a
// wrapper round requestAnimationFrame, put into the page before the app's own scripts. The lane has no
// way of saying what it shows, so its pixels are read after a frame has been timed: a frame shows the
// verdict of a late stroke when there is ink in the colour of "late" farther right than before. Not in
// the figures: what the compositor and a screen add after the frame is drawn, and what a graphics
// card would take off, since headless Chromium draws in software.

/** One frame of a screen with 60 of them a second, ms. */
const FRAME_MS = 1000 / 60;
/** The page's clock counts tenths of a millisecond, and an interval has two ends. */
const CLOCK_STEPS_MS = 0.2;

/** Eighths of the snare at 120: every stroke has its note to itself. */
const HARBOUR_BELL: PhraseFile = {
  title: 'Harbour bell',
  meter: '4/4',
  tempoBpm: 120,
  subdivision: 2,
  grouping: 'R L',
  layers: [{ name: 'Sticking' }],
};
const PARTIAL_MS = 250;
const STROKES = 60;
/** Beyond the tolerance of 35 ms and, with a step on top, within the reach of 100 ms. */
const LATE_MS = 50;
/** Steps of this, wrapped, fall all over a frame. */
const PHASE_STEP_MS = 7.31;
/** Until verdicts are final and the table has been told: the cycle, its last window and the grace. */
const SETTLED_MS = 1500;

/** Bar 1 beat 1 on the page's clock, ms, from the offset told for a stroke at no particular time. */
async function originOf(page: Page): Promise<number> {
  // half a partial apart, so that the second is within reach of a note if the first is not
  for (const waitMs of [0, PARTIAL_MS / 2]) {
    const struckMs = await page.evaluate(async (ms) => {
      await new Promise((resolve) => setTimeout(resolve, ms));
      const now = performance.now();
      window.fakeMidi.emit('kit', [0x99, 38, 80], now);
      return now;
    }, waitMs);
    await page.waitForTimeout(SETTLED_MS);
    const rows = await tableRows(page);
    const note = rows.findIndex(({ offsetMs }) => offsetMs !== undefined);
    if (note >= 0) return struckMs - rows[note]!.offsetMs! - note * PARTIAL_MS;
  }
  throw new Error('Two strokes half a partial apart answered no note.');
}

async function startPlaying(page: Page): Promise<void> {
  await page.getByTestId('start').click();
  await page.getByTestId('status').getByText('Playing').waitFor();
}

const lateNotes = async (page: Page): Promise<number> =>
  (await tableRows(page)).filter(({ verdict }) => verdict === 'late').length;

/** Strikes late on every second note, all over the frame, and waits for each verdict to be on the lane. */
export async function verdictRow(page: Page): Promise<BenchRow> {
  await connectKit(page);
  await practisePhrase(page, { ...HARBOUR_BELL });
  await startPlaying(page);
  const origin = await originOf(page);
  const lateBefore = await lateNotes(page);
  const now = await page.evaluate(() => performance.now());
  const first = Math.ceil((now + 500 - origin) / PARTIAL_MS);
  const strikes = Array.from(
    { length: STROKES },
    (_, k) => origin + (first + 2 * k) * PARTIAL_MS + LATE_MS + ((k * PHASE_STEP_MS) % FRAME_MS),
  );
  const shown = await page.evaluate(verdictFrames, strikes);
  await page.waitForTimeout(SETTLED_MS);
  equal((await lateNotes(page)) - lateBefore, STROKES);
  await page.getByTestId('start').click();

  const took = shown.map(({ tookMs }) => tookMs);
  const inFrame = p95(shown.map(({ frames }) => frames));
  const slow = p95(took);
  return {
    name: 'MIDI event to the frame with its verdict',
    asserted: `${STROKES} late strokes: late ink on the lane, late in the table`,
    p50: duration(p50(took)),
    tail: `p95 ${duration(slow)}`,
    aim: `p95 ≤ 2 frames, ${duration(2 * FRAME_MS)}`,
    met: slow <= 2 * FRAME_MS,
    note: `To the end of drawing in the page; at p95 it is frame ${inFrame} after the event. What a screen adds is not in it.`,
  };
}

interface WatchedFrames {
  readonly intervals: number[];
  readonly work: number[];
}

/** The frames of the next `ms` milliseconds. */
async function watch(page: Page, ms: number): Promise<WatchedFrames> {
  const { at, workMs } = await page.evaluate(async (time) => {
    const { pageFrames } = window;
    pageFrames.at.length = 0;
    pageFrames.workMs.length = 0;
    await new Promise((resolve) => setTimeout(resolve, time));
    return { at: [...pageFrames.at], workMs: [...pageFrames.workMs] };
  }, ms);
  return { intervals: at.slice(1).map((end, i) => end - at[i]!), work: workMs };
}

function frameRow(what: string, asserted: string, values: number[], note: string): BenchRow {
  const slow = p99(values);
  return {
    name: what,
    asserted,
    p50: duration(p50(values)),
    tail: `p99 ${duration(slow)}`,
    aim: `p99 ≤ ${duration(FRAME_MS)}`,
    met: slow <= FRAME_MS + CLOCK_STEPS_MS,
    note,
  };
}

/** The lane at its busiest, played by the simulated player, and beside it a page that draws nothing. */
export async function laneRows(page: Page, seconds: number): Promise<BenchRow[]> {
  await practisePhrase(page, { ...STORM_TIDE });
  await page.getByTestId('players').locator('summary').first().click();
  await page.getByRole('radio', { name: 'simulated player' }).check();
  await startPlaying(page);
  const lane = await watch(page, seconds * 1000);
  const rows = await tableRows(page);
  const before = await page.getByTestId('lane-table-before').textContent();
  await page.getByTestId('start').click();
  deepStrictEqual(new Set(rows.map(({ voice }) => voice)).size, 8);
  const notes = rows.length + Number.parseInt(before ?? '', 10);
  // four notes a sixteenth, of which the last cycle may not be told yet
  const due = (seconds * STORM_TIDE.tempoBpm * 4 * 4) / 60;
  ok(notes > due - 100, `${notes} notes of ${due}`);
  const answered = rows.filter(({ verdict }) => verdict !== 'missed').length;
  ok(answered > 0.9 * rows.length, `${answered} of ${rows.length} notes answered`);

  const idle = await watchNothing(page);
  const asserted = `8 voices, ${notes} notes judged, over 9 in 10 answered`;
  const dropped = lane.intervals.filter((ms) => ms > 1.5 * FRAME_MS).length;
  const what = `Four limbs on sixteenths at 300 bpm, 8 voices, for ${seconds} s in headless Chromium, which draws in software at 60 frames a second.`;
  return [
    frameRow(
      'lane, 8 voices at 300 bpm, between frames',
      asserted,
      lane.intervals,
      `${what} ${dropped} of ${lane.intervals.length} frames came late.`,
    ),
    frameRow(
      'lane, 8 voices at 300 bpm, work in a frame',
      asserted,
      lane.work,
      `${what} The page's own part of a frame.`,
    ),
    {
      name: 'page that draws nothing, between frames',
      asserted: '–',
      p50: duration(p50(idle)),
      tail: `p99 ${duration(p99(idle))}`,
      note: 'The floor: what this browser on this machine does by itself.',
    },
  ];
}

const IDLE_SECONDS = 15;

/** Intervals between frames of an empty page with the same wrapper. */
async function watchNothing(page: Page): Promise<number[]> {
  await page.goto('about:blank');
  await page.evaluate(() => {
    const again = () => requestAnimationFrame(again);
    again();
  });
  return (await watch(page, IDLE_SECONDS * 1000)).intervals;
}
