import type { LaneLayout, LaneView } from './lane-layout';
import { clamp } from '../../time/whole';

/** Width of a sheet, CSS pixels: printing one is a small part of a frame. Chosen, not measured. */
const SHEET = 192;
/** A text this far beside a sheet does not reach onto it, CSS pixels. */
const TEXT_REACH = 80;

/** A stretch of paper to be printed; one object, written anew for each sheet. */
export interface PaperStretch {
  readonly layout: LaneLayout;
  readonly view: LaneView;
  fromUs: number;
  toUs: number;
  /** Whether it lies behind the player. */
  spent: boolean;
}

export interface Printer {
  /** How far a hit window reaches to either side of its note. */
  reachUs: number;
  /** Differs whenever what is printed from one time to another does. */
  mark(stretch: PaperStretch): number;
  print(ctx: CanvasRenderingContext2D, stretch: PaperStretch): void;
}

interface Sheet {
  readonly ctx: CanvasRenderingContext2D;
  index: number;
  pxPerUs: number;
  mark: number;
}

/**
 * The paper with all that is written on it, printed sheet by sheet off screen and put down by whole
 * device pixels: a frame prints only what has come into sight or has changed. Every sheet there is
 * twice, as it looks ahead of the player and behind.
 */
export class PrintedPaper {
  readonly #printer: Printer;
  readonly #dpr: number;
  readonly #wide: number;
  readonly #high: number;
  readonly #left: number;
  readonly #plotWide: number;
  readonly #ahead: readonly Sheet[];
  readonly #spent: readonly Sheet[];
  readonly #stretch: PaperStretch;

  constructor(printer: Printer, layout: LaneLayout, dpr: number) {
    this.#printer = printer;
    this.#dpr = dpr;
    this.#wide = Math.ceil(SHEET * dpr);
    this.#high = Math.ceil(layout.height * dpr);
    this.#left = Math.round(layout.plotLeft * dpr);
    this.#plotWide = Math.ceil(layout.width * dpr) - this.#left;
    const plotWidth = this.#wide / dpr + 1;
    this.#stretch = {
      layout: { ...layout, width: layout.plotLeft + plotWidth, plotWidth },
      view: { nowUs: 0, originUs: 0, pxPerUs: 1 },
      fromUs: 0,
      toUs: 0,
      spent: false,
    };
    const count = Math.ceil(this.#plotWide / this.#wide) + 1;
    this.#ahead = sheets(count, this.#wide, this.#high);
    this.#spent = sheets(count, this.#wide, this.#high);
  }

  /** Lays the sheets in sight, spent up to a time; leaves the context in device pixels. */
  lay(ctx: CanvasRenderingContext2D, view: LaneView, spentToUs: number): void {
    const wide = this.#wide;
    const high = this.#high;
    const pxPerUs = view.pxPerUs * this.#dpr;
    const origin = Math.round(view.originUs * pxPerUs);
    const spentTo = Math.round(spentToUs * pxPerUs);
    ctx.setTransform(1, 0, 0, 1, 0, 0);
    const first = Math.floor(origin / wide);
    for (let index = first; index * wide < origin + this.#plotWide; index++) {
      const x = this.#left + index * wide - origin;
      const cut = clamp(spentTo - index * wide, 0, wide);
      if (cut > 0) {
        const { canvas } = this.#printed(this.#spent, index, view, true);
        if (cut === wide) ctx.drawImage(canvas, x, 0);
        else ctx.drawImage(canvas, 0, 0, cut, high, x, 0, cut, high);
      }
      if (cut < wide) {
        const { canvas } = this.#printed(this.#ahead, index, view, false);
        if (cut === 0) ctx.drawImage(canvas, x, 0);
        else ctx.drawImage(canvas, cut, 0, wide - cut, high, x + cut, 0, wide - cut, high);
      }
    }
  }

  #printed(
    pile: readonly Sheet[],
    index: number,
    { pxPerUs }: LaneView,
    spent: boolean,
  ): CanvasRenderingContext2D {
    const sheet = pile[((index % pile.length) + pile.length) % pile.length]!;
    const stretch = this.#stretch;
    const { view, layout } = stretch;
    view.pxPerUs = pxPerUs;
    view.originUs = (index * this.#wide) / (pxPerUs * this.#dpr);
    const marginUs = Math.max(this.#printer.reachUs, TEXT_REACH / pxPerUs);
    stretch.fromUs = view.originUs - marginUs;
    stretch.toUs = view.originUs + layout.plotWidth / pxPerUs + marginUs;
    stretch.spent = spent;
    const mark = this.#printer.mark(stretch);
    if (sheet.index === index && sheet.pxPerUs === pxPerUs && sheet.mark === mark) return sheet.ctx;
    sheet.index = index;
    sheet.pxPerUs = pxPerUs;
    sheet.mark = mark;
    sheet.ctx.setTransform(this.#dpr, 0, 0, this.#dpr, -this.#left, 0);
    this.#printer.print(sheet.ctx, stretch);
    return sheet.ctx;
  }
}

function sheets(count: number, wide: number, high: number): Sheet[] {
  return Array.from({ length: count }, () => {
    const canvas = document.createElement('canvas');
    canvas.width = wide;
    canvas.height = high;
    const ctx = canvas.getContext('2d', { alpha: false });
    if (!ctx) throw new Error('A second canvas has no drawing context where the first had one.');
    return { ctx, index: NaN, pxPerUs: 0, mark: 0 };
  });
}
