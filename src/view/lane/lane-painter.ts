import type { LaneFeed } from '../../live/lane-feed';
import { VOICES, voiceNumber } from '../../phrase/model/voice';
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
import { firstAtOrAfter } from '../../time/first-at-or-after';
import { laneLayout, placeScrolling, type LaneLayout, type LaneView } from './lane-layout';
import { laneRows, rowOfVoice, type LaneRow } from './lane-rows';
import { PageTurn } from './page-turn';
import { printMark } from './print-mark';
import { PrintedPaper, type Printer } from './printed-paper';
import { SpentTo } from './spent-to';

export interface LaneSettings {
  readonly feed: LaneFeed;
  readonly still: boolean;
  readonly spanSeconds: number | undefined;
}

const OPEN_HAT = voiceNumber('hi-hat open');
const EMPTY_ROWS = 5;

function widestReachUs(feed: LaneFeed): number {
  let widest = 0;
  for (let i = 0; i < feed.noteCount; i++) widest = Math.max(widest, feed.noteReachUs[i]!);
  return widest;
}

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
  /** All that decides the look of the paper but its notes, as text. */
  #look = '';
  #paper: PrintedPaper | undefined;
  readonly #spentTo = new SpentTo();
  readonly #page = new PageTurn();
  #struck = new Uint8Array(VOICES.length);
  #strokesSeen = 0;
  #notesSeen = 0;
  #rowsSeen: readonly number[] | undefined;

  readonly #printer: Printer = {
    reachUs: 0,
    mark: (fromUs, toUs, spent) => printMark(this.#settings.feed, fromUs, toUs, spent),
    print: (ctx, layout, view, fromUs, toUs, spent) => {
      const { feed } = this.#settings;
      const palette = this.#palette;
      const rowOf = this.#rowOf;
      const colour = spent ? palette.spent : palette.ink;
      const from = firstAtOrAfter(feed.noteTimeUs, feed.noteCount, fromUs);
      const to = firstAtOrAfter(feed.noteTimeUs, feed.noteCount, toUs);
      drawPaper(ctx, layout, palette);
      drawWindows(ctx, feed, rowOf, layout, view, palette, from, to);
      drawRows(ctx, layout, palette);
      drawCycleStarts(ctx, feed, layout, view, palette);
      drawGrid(ctx, feed, layout, view, palette);
      drawMeterRuler(ctx, feed, layout, view, palette);
      drawNotes(ctx, feed, rowOf, this.#signs, layout, view, colour, from, to);
      drawSticking(ctx, feed, layout, view, colour, from, to);
      if (spent) drawMissed(ctx, feed, rowOf, layout, view, palette, from, to);
    },
  };

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
    this.#paper = undefined;
  }

  /** Also when fonts have come: what was printed before is printed anew. */
  setPalette(palette: Palette): void {
    this.#palette = palette;
    this.#paper = undefined;
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
    const paper = (this.#paper ??= new PrintedPaper(this.#printer, layout, this.#dpr));
    const { view } = this;
    const ctx = this.#ctx;
    const palette = this.#palette;
    if (this.#settings.still) this.#page.place(layout, feed.marks, nowUs, this.#dpr, view);
    else placeScrolling(layout, nowUs, this.#dpr, view);

    paper.lay(ctx, view, this.#spentTo.at(feed, view.nowUs));
    ctx.setTransform(this.#dpr, 0, 0, this.#dpr, 0, 0);
    drawCycleRuler(ctx, feed, layout, view, palette);
    drawInk(ctx, feed, this.#rowOf, layout, view, palette);
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
    this.#printer.reachUs = widestReachUs(feed);
    const layout = laneLayout({
      width: this.#width,
      height: this.#height,
      rowCount: this.#rows.length || EMPTY_ROWS,
      density: feedDensity(feed, this.#rowOf, nowUs),
      spanSeconds,
    });
    const look = JSON.stringify([layout, this.#rows, this.#signs]);
    if (look !== this.#look) this.#paper = undefined;
    this.#look = look;
    return layout;
  }
}
