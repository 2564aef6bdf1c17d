import type { LaneFeed } from '../../practice/lane-feed';
import { VOICES, voiceNumber } from '../../phrase/voice';
import type { Palette } from '../theme/palette';
import { drawInk } from './draw-ink';
import { drawMissed, drawNotes, drawSticking, drawWindows } from './draw-notes';
import {
  drawBarNow,
  drawCycleRuler,
  drawCycleStarts,
  drawGrid,
  drawMeterRuler,
} from './draw-rulers';
import { drawGutter, drawPaper, drawPlayhead, drawRows } from './draw-strip';
import { feedDensity } from './feed-density';
import { firstAtOrAfter } from './first-visible';
import { laneLayout, placeScrolling, timeAt, type LaneLayout, type LaneView } from './lane-layout';
import { laneRows, rowOfVoice, type LaneRow } from './lane-rows';
import { PageTurn } from './page-turn';

export interface LaneSettings {
  readonly feed: LaneFeed;
  readonly still: boolean;
  readonly spanSeconds: number | undefined;
}

const OPEN_HAT = voiceNumber('hi-hat open');
const EMPTY_ROWS = 5;

/** Paints the strip. Everything that can be is worked out when something changes; `paint` allocates nothing. */
export class LanePainter {
  readonly view: LaneView = { nowUs: 0, originUs: 0, pxPerUs: 1 };
  readonly #ctx: CanvasRenderingContext2D;
  #width = 1;
  #height = 1;
  #dpr = 1;
  #palette: Palette;
  readonly #settings: LaneSettings;
  #rows: LaneRow[] = [];
  #rowOf: Int8Array = new Int8Array(VOICES.length);
  #signs = false;
  #layout: LaneLayout | undefined;
  readonly #page = new PageTurn();
  #struck = new Uint8Array(VOICES.length);
  #strokesSeen = 0;
  #notesSeen = 0;
  #rowsSeen: readonly number[] | undefined;

  constructor(ctx: CanvasRenderingContext2D, palette: Palette, settings: LaneSettings) {
    this.#ctx = ctx;
    this.#palette = palette;
    this.#settings = settings;
  }

  resize(width: number, height: number, dpr: number): void {
    this.#width = width;
    this.#height = height;
    this.#dpr = dpr;
    const { canvas } = this.#ctx;
    canvas.width = Math.max(1, Math.round(width * dpr));
    canvas.height = Math.max(1, Math.round(height * dpr));
    this.#layout = undefined;
  }

  setPalette(palette: Palette): void {
    this.#palette = palette;
  }

  /** Visible time, microseconds. */
  get spanUs(): number {
    return this.#layout ? this.#layout.plotWidth / this.view.pxPerUs : 0;
  }

  paint(nowUs: number): void {
    const { feed } = this.#settings;
    this.#noticeStrokes(feed);
    if (feed.rows !== this.#rowsSeen || feed.noteCount !== this.#notesSeen)
      this.#layout = undefined;
    const layout = (this.#layout ??= this.#plan(nowUs));
    const { view } = this;
    const ctx = this.#ctx;
    const palette = this.#palette;
    if (this.#settings.still) this.#page.place(layout, feed.marks, nowUs, view);
    else placeScrolling(layout, nowUs, view);

    const marginUs = 300_000;
    const from = firstAtOrAfter(feed.noteTimeUs, feed.noteCount, view.originUs - marginUs);
    const to = firstAtOrAfter(
      feed.noteTimeUs,
      feed.noteCount,
      timeAt(layout, view, layout.width) + marginUs,
    );
    const rowOf = this.#rowOf;
    ctx.setTransform(this.#dpr, 0, 0, this.#dpr, 0, 0);
    drawPaper(ctx, layout, palette);
    drawWindows(ctx, feed, rowOf, layout, view, palette, from, to);
    drawRows(ctx, layout, palette);
    drawCycleStarts(ctx, feed, layout, view, palette);
    drawGrid(ctx, feed, layout, view, palette);
    drawMeterRuler(ctx, feed, layout, view, palette);
    drawCycleRuler(ctx, feed, layout, view, palette);
    drawNotes(ctx, feed, rowOf, this.#signs, layout, view, palette, from, to);
    drawSticking(ctx, feed, layout, view, palette, from, to);
    drawMissed(ctx, feed, rowOf, layout, view, palette, from, to);
    drawInk(ctx, feed, rowOf, layout, view, palette);
    if (feed.noteCount > 0) drawPlayhead(ctx, layout, view, palette);
    drawGutter(ctx, this.#rows, layout, palette);
    drawBarNow(ctx, feed, layout, view, palette);
  }

  /** A voice struck for the first time that has no row gets one. */
  #noticeStrokes(feed: LaneFeed): void {
    if (feed.strokeCount < this.#strokesSeen) this.#strokesSeen = 0;
    for (; this.#strokesSeen < feed.strokeCount; this.#strokesSeen++) {
      const voice = feed.strokeVoice[this.#strokesSeen]!;
      if (this.#struck[voice] === 1) continue;
      this.#struck[voice] = 1;
      if (this.#rowOf[voice]! < 0) this.#layout = undefined;
    }
  }

  #plan(nowUs: number): LaneLayout {
    const { feed, spanSeconds } = this.#settings;
    const struck = [...this.#struck.keys()].filter((voice) => this.#struck[voice] === 1);
    this.#rows = laneRows(feed.rows, struck);
    this.#rowOf = rowOfVoice(this.#rows);
    this.#signs = feed.rows.includes(OPEN_HAT);
    this.#rowsSeen = feed.rows;
    this.#notesSeen = feed.noteCount;
    return laneLayout({
      width: this.#width,
      height: this.#height,
      rowCount: this.#rows.length || EMPTY_ROWS,
      density: feedDensity(feed, this.#rowOf, nowUs),
      spanSeconds,
    });
  }
}
