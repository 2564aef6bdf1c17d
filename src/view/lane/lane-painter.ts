import type { LaneFeed } from '../../live/lane-feed';
import { VOICES, voiceNumber } from '../../phrase/model/voice';
import type { Palette } from '../theme/palette';
import { drawAccompaniment } from './draw-accompaniment';
import { drawBand, type Band } from './draw-band';
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
import { firstAtOrAfter } from '../../time/first-from';
import { laneLayout, placeFrom, placeScrolling, timeAt, type LaneView } from './lane-layout';
import { laneRows, rowOfVoice, type LaneRow } from './lane-rows';
import type { LaneScene, PrintedScene } from './lane-scene';
import { PageTurn } from './page-turn';
import { printMark } from './print-mark';
import { PrintedPaper, type Printer } from './printed-paper';

export interface LaneSettings {
  readonly feed: LaneFeed;
  readonly still: boolean;
  readonly spanSeconds: number | undefined;
  /** Numbers of voices that have a row whether they are written and struck or not. */
  readonly rows?: readonly number[] | undefined;
  /** Drawn over the notes of a stretch of paper. */
  readonly over?: DrawOver | undefined;
}

export type DrawOver = (scene: PrintedScene) => void;

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
  /** A stretch that is marked. */
  band: Band | undefined;
  readonly #ctx: CanvasRenderingContext2D;
  #width = 1;
  #height = 1;
  #dpr = 1;
  #palette: Palette;
  readonly #settings: LaneSettings;
  #rows: LaneRow[] = [];
  #rowOf: Int8Array = new Int8Array(VOICES.length);
  /** Undefined once something has changed that it hangs on. */
  #scene: LaneScene | undefined;
  #printed: PrintedScene | undefined;
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
    mark: (stretch) => printMark(this.#settings.feed, stretch),
    print: (ctx, { layout, view, fromUs, toUs, spent }) => {
      const scene = this.#printed!;
      const { feed, palette } = scene;
      scene.ctx = ctx;
      scene.layout = layout;
      scene.view = view;
      scene.colour = spent ? palette.spent : palette.ink;
      scene.from = firstAtOrAfter(feed.noteTimeUs, feed.noteCount, fromUs);
      scene.to = firstAtOrAfter(feed.noteTimeUs, feed.noteCount, toUs);
      drawPaper(scene);
      drawWindows(scene);
      drawRows(scene);
      drawCycleStarts(scene);
      drawGrid(scene);
      drawMeterRuler(scene);
      drawAccompaniment(scene, fromUs, toUs);
      drawNotes(scene);
      drawSticking(scene);
      if (spent) drawMissed(scene);
      this.#settings.over?.(scene);
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
    this.#scene = undefined;
    this.#paper = undefined;
  }

  /** Also when fonts have come: what was printed before is printed anew. */
  setPalette(palette: Palette): void {
    this.#palette = palette;
    this.#scene = undefined;
    this.#paper = undefined;
  }

  /** Visible time, microseconds. */
  get spanUs(): number {
    return this.#scene ? this.#scene.layout.plotWidth / this.view.pxPerUs : 0;
  }

  /** The time at a place, CSS pixels from the left. */
  usAt(x: number): number {
    return this.#scene ? timeAt(this.#scene.layout, this.view, x) : 0;
  }

  paint(nowUs: number): void {
    const { feed, still } = this.#settings;
    const scene = this.#sceneAt(nowUs);
    if (still) this.#page.place(scene.layout, feed.marks, nowUs, this.#dpr, this.view);
    else placeScrolling(scene.layout, nowUs, this.#dpr, this.view);
    this.#draw(scene);
    if (feed.noteCount > 0) drawPlayhead(scene);
    drawGutter(scene, this.#rows);
    drawBarNow(scene);
  }

  /** The stretch that begins at a time, of a take that is over: nothing is now in it. */
  paintFrom(startUs: number): void {
    const scene = this.#sceneAt(startUs);
    placeFrom(scene.layout, startUs, this.#dpr, this.view);
    this.#draw(scene);
    drawGutter(scene, this.#rows);
  }

  #sceneAt(nowUs: number): LaneScene {
    const { feed } = this.#settings;
    this.#noticeStrokes(feed);
    if (feed.rows !== this.#rowsSeen || feed.noteCount !== this.#notesSeen) this.#scene = undefined;
    return (this.#scene ??= this.#plan(nowUs));
  }

  #draw(scene: LaneScene): void {
    const { ctx, layout, feed } = scene;
    const paper = (this.#paper ??= new PrintedPaper(this.#printer, layout, this.#dpr));
    paper.lay(ctx, this.view, this.#spentTo.at(feed, this.view.nowUs));
    ctx.setTransform(this.#dpr, 0, 0, this.#dpr, 0, 0);
    if (this.band) drawBand(scene, this.band);
    drawCycleRuler(scene);
    drawInk(scene);
  }

  /** A voice struck for the first time that has no row gets one. */
  #noticeStrokes(feed: LaneFeed): void {
    if (feed.strokeCount < this.#strokesSeen) this.#strokesSeen = 0;
    for (; this.#strokesSeen < feed.strokeCount; this.#strokesSeen++) {
      const voice = feed.strokeVoice[this.#strokesSeen]!;
      if (this.#struck[voice] === 1) continue;
      this.#struck[voice] = 1;
      if (this.#rowOf[voice]! < 0) this.#scene = undefined;
    }
  }

  #plan(nowUs: number): LaneScene {
    const { feed, spanSeconds, rows = [] } = this.#settings;
    const struck = [...this.#struck.keys()].filter((voice) => this.#struck[voice] === 1);
    this.#rows = laneRows([...feed.rows, ...rows], struck);
    this.#rowOf = rowOfVoice(this.#rows);
    const closedSigns = feed.rows.includes(OPEN_HAT);
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
    const look = JSON.stringify([layout, this.#rows, closedSigns]);
    if (look !== this.#look) this.#paper = undefined;
    this.#look = look;
    const scene: LaneScene = {
      ctx: this.#ctx,
      feed,
      rowOf: this.#rowOf,
      layout,
      view: this.view,
      palette: this.#palette,
    };
    this.#printed = { ...scene, colour: '', closedSigns, from: 0, to: 0 };
    return scene;
  }
}

/** Up to where the paper is behind the player: the playhead, or farther where all is judged already. */
class SpentTo {
  #judged = 0;

  at(feed: Pick<LaneFeed, 'noteCount' | 'noteTimeUs' | 'noteVerdict'>, nowUs: number): number {
    let judged = Math.min(this.#judged, feed.noteCount);
    while (judged > 0 && feed.noteVerdict[judged - 1] === 0) judged--;
    while (judged < feed.noteCount && feed.noteVerdict[judged] !== 0) judged++;
    this.#judged = judged;
    if (judged === 0) return nowUs;
    const lastUs = feed.noteTimeUs[judged - 1]!;
    if (lastUs < nowUs) return nowUs;
    const nextUs = judged < feed.noteCount ? feed.noteTimeUs[judged]! : lastUs + 1_000_000;
    return Math.max(nowUs, (lastUs + nextUs) / 2);
  }
}
