import { sheetMei } from '../mei/sheet-mei';
import type { Score } from '../score/score';
import { engravedPage, type SheetGlyphs } from './engraved-page';
import { sheetLines, type SheetLines } from './sheet-lines';
import { PAPER_WIDTH, SIZE_FACTOR, type SheetLook } from './sheet-look';
import { drawnRows } from './sheet-rows';

/** What is used of Verovio 6.3, which comes without types. */
export interface Engraver {
  setOptions(options: Readonly<Record<string, unknown>>): void;
  loadData(mei: string): boolean | number;
  renderToSVG(page: number): string;
}

/** A line of a sheet as SVG, without styles or fonts for music, hundredths of a millimetre. */
export interface SheetLine {
  readonly width: number;
  readonly height: number;
  /** Elements that take their colour from around them. */
  readonly body: string;
}

/** A layer on paper. */
export interface SheetPicture {
  /** 1-based. */
  readonly layer: number;
  readonly layerName: string;
  readonly lines: readonly SheetLine[];
  readonly glyphs: SheetGlyphs;
}

/** The same picture every time, a line a page, in the font of the score line; the sheet's text is the app's. */
const ENGRAVING = {
  adjustPageHeight: true,
  breaks: 'encoded',
  font: 'Leland',
  header: 'none',
  footer: 'none',
  scale: 100,
  svgViewBox: true,
  xmlIdSeed: 1,
  pageMarginLeft: 30,
  pageMarginRight: 30,
  spacingLinear: 0.45,
} as const;

/** A last line at least this full is made as long as the others. Chosen. */
const FULL_ENOUGH = 0.55;

/** Room over, under and beside a line, hundredths of a millimetre; the engraver leaves the last of them. Chosen. */
const MARGIN = { over: 120, under: 160, left: 300 } as const;

/**
 * Engraves a score, line by line.
 *
 * @throws Error when the engraver cannot read it.
 * @example engraveSheet({ setOptions() {}, loadData: () => 1, renderToSVG: () => '<svg viewBox="0 0 1800 400"><g class="page-margin" transform="translate(300, 0)"></g></svg>' }, layerScore(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, 1, 1), { paper: 'A4', size: 'desk', hasStickings: true, hasCounts: true, hasMarks: false }).layerName // => 'Sticking'
 */
export function engraveSheet(engraver: Engraver, score: Score, look: SheetLook): SheetPicture {
  const lines = sheetLines(score, PAPER_WIDTH[look.paper] / SIZE_FACTOR[look.size]);
  const { breaks } = lines;
  engraver.setOptions({
    ...ENGRAVING,
    pageWidth: Math.round(lines.width),
    minLastJustification: isFull(score, lines) ? 0 : 1,
  });
  if (!engraver.loadData(sheetMei(score, breaks)))
    throw new Error('The engraver could not read the score.');
  const pages = breaks.map((_, i) => engravedPage(engraver.renderToSVG(i + 1)));
  return {
    layer: score.layer,
    layerName: score.layerName,
    lines: pages.map((page, i): SheetLine => {
      const bars = score.bars.slice(breaks[i], breaks[i + 1]);
      const { body, top, bottom } = drawnRows({ score, bars, look }, page);
      const [from, to] = [Math.floor(top) - MARGIN.over, Math.ceil(bottom) + MARGIN.under];
      return {
        width: page.width,
        height: to - from,
        body: `<g transform="translate(${MARGIN.left}, ${-from})">${page.body}${body}</g>`,
      };
    }),
    glyphs: Object.assign({}, ...pages.map(({ glyphs }) => glyphs)) as SheetGlyphs,
  };
}

function isFull({ bars }: Score, { breaks }: SheetLines): boolean {
  const lengths = breaks.map((from, i) =>
    bars.slice(from, breaks[i + 1]).reduce((all, { partials }) => all + partials, 0),
  );
  return lengths.length > 1 && lengths.at(-1)! >= FULL_ENOUGH * Math.max(...lengths);
}
