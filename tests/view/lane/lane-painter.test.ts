import { beforeAll, describe, expect, it } from 'vitest';
import type { LaneFeed } from '../../../src/live/lane-feed';
import { drawBrackets } from '../../../src/view/lane/draw-brackets';
import { LanePainter, type DrawOver } from '../../../src/view/lane/lane-painter';
import { loadLaneFonts } from '../../../src/view/theme/notation-font';
import { readPalette, type Palette } from '../../../src/view/theme/palette';
import '../../../src/view/theme/theme.css';
import {
  crowdedFeed,
  demoFeed,
  emptyFeed,
  quayFeed,
  type DemoInput,
  type DemoNote,
  type DemoStroke,
} from '../demo-feed';

const WIDTH = 1200;
const HEIGHT = 420;
let palette: Palette;

beforeAll(async () => {
  await loadLaneFonts();
  document.documentElement.dataset['theme'] = 'light';
  palette = readPalette(document.body);
});

const oneBar = (notes: readonly DemoNote[], extras: readonly DemoStroke[] = []) => {
  const input: DemoInput = {
    bpm: 60,
    subdivision: 1,
    beatsPerBar: 4,
    bars: 4,
    cycle: 4,
    cyclesToRealign: 1,
    syllables: [''],
    notes: [
      ...notes,
      { at: 12, voice: 'snare', limb: 'R' },
      { at: 12, voice: 'bass drum', limb: 'K' },
    ],
    extras,
  };
  return demoFeed(input);
};

function paint(feed: LaneFeed, nowUs: number, still = false, over?: DrawOver) {
  const ctx = document.createElement('canvas').getContext('2d', { alpha: false })!;
  const painter = new LanePainter(ctx, palette, { feed, still, spanSeconds: 6, over });
  painter.resize(WIDTH, HEIGHT, 1);
  painter.paint(nowUs);
  const { data } = ctx.getImageData(0, 0, WIDTH, HEIGHT);
  /** Where a colour stands, as exact pixels. */
  const places = (css: string) => {
    const [r, g, b] = (css.match(/\d+/g) ?? []).map(Number);
    const xs: number[] = [];
    const ys: number[] = [];
    for (let i = 0; i < data.length; i += 4)
      if (data[i] === r && data[i + 1] === g && data[i + 2] === b) {
        xs.push((i / 4) % WIDTH);
        ys.push(Math.floor(i / 4 / WIDTH));
      }
    return {
      count: xs.length,
      left: Math.min(...xs),
      right: Math.max(...xs),
      top: Math.min(...ys),
      bottom: Math.max(...ys),
    };
  };
  const playheadX = WIDTH - painter.spanUs * (2 / 3) * painter.view.pxPerUs;
  return { painter, data, places, playheadX, pxPerMs: painter.view.pxPerUs * 1000 };
}

const judged = (
  verdict: 'early' | 'late' | 'wrong voice',
  offsetMs: number,
  velocity = 90,
): DemoNote => ({
  at: 4,
  voice: 'snare',
  limb: 'R',
  verdict,
  played: [offsetMs, velocity],
});

describe('the painted lane', () => {
  it.each(['ghost', 'tap', 'accent'] as const)(
    'puts the notes of a finding between brackets by shape, as dark as what is written: %s',
    (level) => {
      const feed = oneBar([
        { at: 5, voice: 'snare', limb: 'R', level },
        { at: 6, voice: 'snare', limb: 'R', level },
      ]);
      const differing = (notes: readonly number[]) => {
        const plain = paint(feed, 4_000_000);
        const over = paint(feed, 4_000_000, false, (scene) => drawBrackets(scene, new Set(notes)));
        const xs: number[] = [];
        for (let i = 0; i < plain.data.length; i += 4)
          if (plain.data[i] !== over.data[i]) {
            xs.push((i / 4) % WIDTH);
            // Nothing becomes lighter.
            expect(over.data[i]!).toBeLessThan(plain.data[i]!);
          }
        const ink = over.places(palette.ink).count - plain.places(palette.ink).count;
        return { xs, ink, noteX: (s: number) => plain.playheadX + (s - 4) * 1000 * plain.pxPerMs };
      };
      expect(differing([]).xs).toEqual([]);
      const { xs, ink, noteX } = differing([1]);
      expect(ink).toBeGreaterThan(40);
      const near = noteX(6);
      // On both sides of its own note, and not at the other one, a second earlier.
      expect(Math.min(...xs)).toBeLessThan(near - 5);
      expect(Math.max(...xs)).toBeGreaterThan(near + 5);
      expect(Math.min(...xs)).toBeGreaterThan((noteX(5) + near) / 2);
    },
  );

  it('draws early ink in its own colour at its own time, flag to the left', () => {
    const { places, playheadX, pxPerMs } = paint(oneBar([judged('early', -80)]), 4_000_000);
    const ink = places(palette.early);
    const at = playheadX - 80 * pxPerMs;
    expect(ink.right).toBeLessThan(at + 5);
    expect(ink.left).toBeLessThan(at - 6);
    expect(places(palette.late).count).toBe(0);
  });

  it('draws late ink with its flag to the right', () => {
    const { places, playheadX, pxPerMs } = paint(oneBar([judged('late', 80)]), 4_000_000);
    const ink = places(palette.late);
    const at = playheadX + 80 * pxPerMs;
    expect(ink.left).toBeGreaterThan(at - 5);
    expect(ink.right).toBeGreaterThan(at + 6);
    expect(places(palette.early).count).toBe(0);
  });

  it('draws louder strokes taller, in proportion', () => {
    const tall = (velocity: number) => {
      const ink = paint(oneBar([judged('late', 80, velocity)]), 4_000_000).places(palette.late);
      return ink.bottom - ink.top + 1;
    };
    expect(tall(120) / tall(60)).toBeCloseTo(2, 0);
  });

  it('shows the hit window as wide as the reach', () => {
    const { places, playheadX, pxPerMs } = paint(
      oneBar([{ at: 4, voice: 'snare', limb: 'R' }]),
      4_000_000,
    );
    const band = places(palette.window);
    expect(band.left).toBeCloseTo(playheadX - 100 * pxPerMs, -1);
  });

  it('marks an extra stroke, a missed note and a wrong voice with plain ink only', () => {
    const quiet = paint(oneBar([]), 4_000_000).places(palette.ink).count;
    const inks = [
      oneBar([], [{ atMs: 3500, voice: 'snare', velocity: 80 }]),
      oneBar([{ at: 4, voice: 'snare', limb: 'R', verdict: 'missed' }]),
      oneBar([{ ...judged('wrong voice', 5), played: [5, 80, 'bass drum'] }]),
    ].map((feed) => paint(feed, 4_000_000));
    for (const { places } of inks) {
      expect(places(palette.ink).count).toBeGreaterThan(quiet);
      expect(places(palette.early).count + places(palette.late).count).toBe(0);
    }
  });

  it('gives a voice that is not written a row when it is struck', () => {
    const without = paint(oneBar([judged('late', 80)]), 4_000_000).places(palette.late);
    const withCrash = paint(
      oneBar([judged('late', 80)], [{ atMs: 3000, voice: 'crash', velocity: 80 }]),
      4_000_000,
    ).places(palette.late);
    expect(withCrash.top).toBeGreaterThan(without.top);
  });

  it('keeps a grace note clear of its main note on another row, whatever comes later on its own row', () => {
    const main: DemoNote = { at: 4, voice: 'snare', limb: 'R' };
    const floorTom: DemoNote = { at: 8, voice: 'floor tom', limb: 'R' };
    const grace: DemoNote = {
      at: 4,
      voice: 'floor tom',
      limb: 'L',
      graceStep: 1,
      graceOf: 'R',
    };
    const [without, withGrace] = [
      [main, floorTom],
      [main, floorTom, grace],
    ].map((notes) => paint(oneBar(notes), 3_000_000));
    const inkX: number[] = [];
    const ink = (palette.ink.match(/\d+/g) ?? []).map(Number);
    const isInk = (data: Uint8ClampedArray, i: number) =>
      ink.every((value, k) => data[i + k] === value);
    for (let i = 0; i < without!.data.length; i += 4)
      if (isInk(withGrace!.data, i) && !isInk(without!.data, i)) inkX.push((i / 4) % WIDTH);
    const mainX = withGrace!.playheadX + 1000 * withGrace!.pxPerMs;
    const halfHead = 0.65 * 4;
    expect(inkX.length).toBeGreaterThan(20);
    expect(Math.max(...inkX)).toBeLessThan(mainX - halfHead);
    expect(Math.min(...inkX)).toBeGreaterThan(mainX - 60);
  });

  it('moves the paper when scrolling and only the playhead on the still page', () => {
    const feed = oneBar([judged('late', 80)]);
    const lateAt = (nowUs: number, still: boolean) =>
      paint(feed, nowUs, still).places(palette.late).left;
    expect(lateAt(4_400_000, false)).toBeLessThan(lateAt(4_300_000, false) - 5);
    expect(lateAt(4_400_000, true)).toBe(lateAt(4_300_000, true));
  });

  it('rules an empty strip', () => {
    const { places } = paint(emptyFeed(), 0);
    expect(places(palette.row).count).toBeGreaterThan(WIDTH * 3);
  });

  describe('printed sheet by sheet', () => {
    const laneAt = (feed: LaneFeed, still: boolean, dpr: number, times: readonly number[]) => {
      const ctx = document.createElement('canvas').getContext('2d', { alpha: false })!;
      const painter = new LanePainter(ctx, palette, { feed, still, spanSeconds: undefined });
      painter.resize(700, 300, dpr);
      for (const nowUs of times) painter.paint(nowUs);
      return { painter, ctx, picture: () => ctx.canvas.toDataURL() };
    };

    it.each([
      [false, 1],
      [false, 1.5],
      [true, 2],
    ])('shows the same whatever was shown before (still %s, %s device pixels)', (still, dpr) => {
      const times = [0, 400_000, 1_000_000, 5_000_000, 900_000, 2_345_678];
      for (const feed of [quayFeed(), crowdedFeed(8)]) {
        const after = laneAt(feed, still, dpr, times).picture();
        expect(after).toBe(laneAt(feed, still, dpr, times.slice(-1)).picture());
      }
    });

    it.each([
      ['a verdict', (feed: LaneFeed) => (feed.noteVerdict[9] = 4)],
      ['a written voice', (feed: LaneFeed) => (feed.noteVoice[40] = feed.noteVoice[41]!)],
      ['a window', (feed: LaneFeed) => (feed.noteReachUs[40]! /= 2)],
      ['a level', (feed: LaneFeed) => (feed.noteLevel[40]! ^= 3)],
      ['a limb', (feed: LaneFeed) => (feed.noteLimb[30]! ^= 1)],
    ])('prints anew when %s changes', (_, change) => {
      const feed = quayFeed();
      const lane = laneAt(feed, false, 1, [2_000_000]);
      const before = lane.picture();
      change(feed);
      lane.painter.paint(2_000_000);
      expect(lane.picture()).not.toBe(before);
      expect(lane.picture()).toBe(laneAt(feed, false, 1, [2_000_000]).picture());
    });

    it('writes next to nothing in a frame that brings nothing new', () => {
      const lane = laneAt(crowdedFeed(8), false, 1, [2_000_000]);
      const { fillText } = CanvasRenderingContext2D.prototype;
      let texts = 0;
      CanvasRenderingContext2D.prototype.fillText = function (...args) {
        texts++;
        fillText.apply(this, args);
      };
      lane.painter.paint(2_000_100);
      const resting = texts;
      lane.painter.setPalette(palette);
      lane.painter.paint(2_000_100);
      CanvasRenderingContext2D.prototype.fillText = fillText;
      // the names of the rows and rulers, the bar and the numbers of the cycles
      expect(resting).toBeLessThan(20);
      expect(texts).toBeGreaterThan(100);
    });

    it('keeps what is ahead as ink and what is judged as spent, left of the playhead or not', () => {
      const feed = oneBar([judged('late', 80)]);
      const { left } = paint(feed, 4_000_000).places(palette.spent);
      const back = paint(feed, 2_000_000).places(palette.spent);
      expect(left).toBeGreaterThan(0);
      expect(back.count).toBeGreaterThan(0);
      expect(back.left).toBeGreaterThan(left);
    });
  });
});
