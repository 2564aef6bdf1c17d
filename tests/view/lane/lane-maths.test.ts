import { firstAtOrAfter } from '../../../src/time/first-from';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { VOICES, voiceNumber, type Voice } from '../../../src/phrase/model/voice';
import { STAFF_PLACES } from '../../../src/notation/staff-places';
import { feedDensity } from '../../../src/view/lane/feed-density';
import { firstCycleEndingAfter, firstMarkAtOrAfter } from '../../../src/view/lane/first-visible';
import {
  laneLayout,
  placeScrolling,
  timeAt,
  xOf,
  type LaneView,
} from '../../../src/view/lane/lane-layout';
import { laneRows, rowOfVoice } from '../../../src/view/lane/lane-rows';
import { PageTurn } from '../../../src/view/lane/page-turn';
import { placeInWords, stepFrom, takeEnds } from '../../../src/view/lane/scroll-steps';
import { crowdedFeed, emptyFeed, ferryFeed, quayFeed } from '../demo-feed';

const numbers = (...voices: Voice[]) => voices.map(voiceNumber);
const view = (): LaneView => ({ nowUs: 0, originUs: 0, pxPerUs: 1 });

describe('first visible', () => {
  it('agrees with looking at every one', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -50, max: 50 })),
        fc.integer({ min: -60, max: 60 }),
        (raw, at) => {
          const sorted = raw.sort((a, b) => a - b);
          const found = sorted.findIndex((t) => t >= at);
          const first = found < 0 ? sorted.length : found;
          expect(firstAtOrAfter(Float64Array.from(sorted), sorted.length, at)).toBe(first);
          expect(
            firstMarkAtOrAfter(
              sorted.map((timeUs) => ({ timeUs })),
              at,
            ),
          ).toBe(first);
          const ending = sorted.findIndex((t) => t > at);
          expect(
            firstCycleEndingAfter(
              sorted.map((endUs) => ({ endUs })),
              at,
            ),
          ).toBe(ending < 0 ? sorted.length : ending);
        },
      ),
    );
  });

  it('looks no farther than the count', () => {
    expect(firstAtOrAfter(Float64Array.of(1, 2, 0, 0), 2, 9)).toBe(2);
  });
});

describe('rows', () => {
  it('come top of the staff first, with one row for voices that share a place', () => {
    const rows = laneRows(
      numbers('bass drum', 'side stick', 'snare', 'hi-hat closed', 'hi-hat open', 'hi-hat pedal'),
      [],
    );
    expect(rows.map((row) => row.label)).toEqual(['hi-hat', 'snare', 'bass drum', 'hi-hat foot']);
  });

  it('stand in the order of the staff, whatever the order of the words', () => {
    const voices = numbers('cowbell', 'ride', 'triangle', 'hi-hat closed', 'high tom');
    // Half spaces above the middle line: 6, 5, 4 and 4, 3.
    expect(laneRows(voices, []).map((row) => row.label)).toEqual([
      'triangle',
      'hi-hat',
      'ride',
      'high tom',
      'cowbell',
    ]);
  });

  it('are shared only by voices that share a place on the staff', () => {
    for (const { voices } of laneRows([...VOICES.keys()], []))
      expect(new Set(voices.map((voice) => STAFF_PLACES[VOICES[voice]!])).size).toBe(1);
  });

  it('take in a voice that was struck though it is not written', () => {
    const rows = laneRows(numbers('ride', 'snare'), numbers('crash', 'ride bell'));
    expect(rows.map((row) => row.label)).toEqual(['crash', 'ride', 'snare']);
  });

  it('give every voice of the words a row of its own or of its family', () => {
    const rows = laneRows([...VOICES.keys()], []);
    const of = rowOfVoice(rows);
    VOICES.forEach((_, voice) => expect(rows[of[voice]!]!.voices).toContain(voice));
    expect(rowOfVoice([])[0]).toBe(-1);
  });
});

describe('density', () => {
  const rowOf = (feed: { rows: readonly number[] }) => rowOfVoice(laneRows(feed.rows, []));

  it('finds the closest neighbours of a row and of the whole, unisons apart', () => {
    const ferry = ferryFeed();
    expect(feedDensity(ferry, rowOf(ferry), 0)).toEqual({
      rowGapUs: 156_250,
      noteGapUs: 156_250,
      together: 1,
    });
    const quay = quayFeed();
    const { rowGapUs, together } = feedDensity(quay, rowOf(quay), 0);
    expect(together).toBe(2);
    expect(Math.round(rowGapUs)).toBe(Math.round(60e6 / 88 / 2));
  });

  it('leaves the notes that the app plays room, too, as much as their smaller heads need', () => {
    const quay = quayFeed();
    const from = 60e6 / 88 / 8;
    const played = (gapUs: number) => ({
      ...quay,
      accompaniment: [0, 1, 2].map((i) => ({
        timeUs: i * gapUs,
        note: {
          voice: VOICES[quay.rows[0]!]!,
          level: 'tap' as const,
          limb: 'R' as const,
          graceStep: 0,
        },
      })),
    });
    expect(feedDensity(played(from), rowOf(quay), 0).rowGapUs).toBeCloseTo((from * 8) / 5, 6);
    const far = feedDensity(played(1e6), rowOf(quay), 0);
    expect(far.rowGapUs).toBe(feedDensity(quay, rowOf(quay), 0).rowGapUs);
  });

  it('has no neighbours on an empty strip', () => {
    expect(feedDensity(emptyFeed(), rowOfVoice([]), 0).rowGapUs).toBe(Infinity);
  });
});

describe('layout', () => {
  const sizes = fc.record({
    width: fc.integer({ min: 300, max: 2600 }),
    height: fc.integer({ min: 200, max: 1000 }),
    rowCount: fc.integer({ min: 1, max: 10 }),
    partialUs: fc.integer({ min: 16_000, max: 2_000_000 }),
    together: fc.integer({ min: 1, max: 4 }),
  });

  it('keeps the playhead a third of the way across and every row inside the strip', () => {
    fc.assert(
      fc.property(sizes, ({ width, height, rowCount, partialUs, together }) => {
        const density = { rowGapUs: partialUs, noteGapUs: partialUs, together };
        const layout = laneLayout({ width, height, rowCount, density, spanSeconds: undefined });
        const third = (layout.playheadX - layout.plotLeft) / layout.plotWidth;
        expect(Math.abs(third - 1 / 3)).toBeLessThan(0.01);
        expect(layout.rowY[0]!).toBeGreaterThan(layout.cycleY);
        expect(layout.rowY[rowCount - 1]!).toBeLessThanOrEqual(
          layout.staffBottom + layout.rowHeight,
        );
      }),
    );
  });

  it('turns time into x and back', () => {
    const density = feedDensity(ferryFeed(), rowOfVoice(laneRows(ferryFeed().rows, [])), 0);
    const layout = laneLayout({
      width: 1440,
      height: 420,
      rowCount: 5,
      density,
      spanSeconds: 6,
    });
    const at = view();
    placeScrolling(layout, 3_350_000, 1, at);
    expect(xOf(layout, at, at.nowUs)).toBeCloseTo(layout.playheadX, 6);
    expect(timeAt(layout, at, layout.width) - timeAt(layout, at, layout.plotLeft)).toBeCloseTo(
      6e6,
      3,
    );
    expect(timeAt(layout, at, xOf(layout, at, 1_234_567))).toBeCloseTo(1_234_567, 3);
  });

  it('moves the paper by whole device pixels, never more than half of one from its time', () => {
    fc.assert(
      fc.property(
        sizes,
        fc.constantFrom(1, 1.25, 1.5, 2, 3),
        fc.array(fc.integer({ min: -5_000_000, max: 600_000_000 }), { minLength: 2 }),
        ({ width, height, rowCount, partialUs, together }, dpr, times) => {
          const density = { rowGapUs: partialUs, noteGapUs: partialUs, together };
          const layout = laneLayout({ width, height, rowCount, density, spanSeconds: undefined });
          const at = view();
          const places = times.map((nowUs) => {
            placeScrolling(layout, nowUs, dpr, at);
            const off = (xOf(layout, at, nowUs) - layout.playheadX) * dpr;
            expect(Math.abs(off)).toBeLessThan(0.5001);
            return xOf(layout, at, 1_000_000) * dpr;
          });
          for (const place of places) {
            const moved = place - places[0]!;
            expect(moved - Math.round(moved)).toBeCloseTo(0, 4);
          }
        },
      ),
    );
  });

  it('draws larger heads on a taller strip and never lets neighbours of a row overlap', () => {
    const plan = (height: number, rowGapUs: number) =>
      laneLayout({
        width: 1440,
        height,
        rowCount: 5,
        density: { rowGapUs, noteGapUs: rowGapUs, together: 1 },
        spanSeconds: 6,
      });
    expect(plan(700, 500_000).space).toBeGreaterThan(plan(350, 500_000).space);
    const tight = plan(700, 80_000);
    // A head of this font is 1.3 staff spaces wide (its metadata).
    expect(tight.space * 1.3).toBeLessThan((80_000 / 6e6) * tight.plotWidth);
  });
});

describe('the still page', () => {
  const layout = laneLayout({
    width: 1440,
    height: 420,
    rowCount: 4,
    density: { rowGapUs: 156_250, noteGapUs: 156_250, together: 1 },
    spanSeconds: 6,
  });
  const { marks } = ferryFeed();
  const barUs = 2_500_000;

  it('shows whole bars and stays put until the playhead has crossed them', () => {
    const page = new PageTurn();
    const at = view();
    page.place(layout, marks, 0, 1, at);
    const { originUs, pxPerUs } = at;
    expect([page.startUs, page.endUs]).toEqual([0, 2 * barUs]);
    page.place(layout, marks, 2 * barUs - 1, 1, at);
    expect([at.originUs, at.pxPerUs]).toEqual([originUs, pxPerUs]);
    page.place(layout, marks, 2 * barUs, 1, at);
    expect([page.startUs, page.endUs]).toEqual([2 * barUs, 4 * barUs]);
  });

  it('always has the playhead on the page, also before the first bar and without marks', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -5_000_000, max: 20_000_000 }), { minLength: 1 }),
        fc.boolean(),
        (times, written) => {
          const page = new PageTurn();
          const at = view();
          for (const nowUs of times) {
            page.place(layout, written ? marks : [], nowUs, 1, at);
            const x = xOf(layout, at, nowUs);
            expect(x).toBeGreaterThanOrEqual(layout.plotLeft);
            expect(x).toBeLessThan(layout.width);
          }
        },
      ),
    );
  });
});

describe('scrolling a finished take', () => {
  const feed = ferryFeed();

  it('reaches from the first note or stroke to the last', () => {
    expect(takeEnds(feed)).toEqual({ startUs: -9_000, endUs: feed.noteTimeUs[93] });
    expect(takeEnds(emptyFeed())).toEqual({ startUs: 0, endUs: 0 });
  });

  it('steps by beats and bars and stops at the ends', () => {
    expect(stepFrom(feed.marks, 700_000, 'beat', 1)).toBe(1_250_000);
    expect(stepFrom(feed.marks, 700_000, 'beat', -1)).toBe(625_000);
    expect(stepFrom(feed.marks, 2_500_000, 'bar', 1)).toBe(5_000_000);
    expect(stepFrom(feed.marks, 0, 'bar', -1)).toBe(0);
  });

  it('tells the place in words', () => {
    expect(placeInWords(feed.marks, 2_500_000)).toBe('bar 2, beat 1');
    expect(placeInWords(feed.marks, 2_500_000 + 3 * 156_250)).toBe('bar 2, beat 1 a');
    expect(placeInWords(feed.marks, -1)).toBe('before bar 1');
  });
});

it('the crowded strip has eight rows', () => {
  expect(laneRows(crowdedFeed(4).rows, [])).toHaveLength(8);
});
