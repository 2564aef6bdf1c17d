import { boxOf, type Box } from './box';
import { outlineBox } from './outline-box';

/** Outlines of the music font by code point, such as "E0A4"; y grows upwards. */
export type SheetGlyphs = Readonly<Record<string, string>>;

/** A staff with everything on it, and nothing over and under it, hundredths of a millimetre. */
export interface EngravedPage {
  readonly width: number;
  /** Elements that take their colour from around them. */
  readonly body: string;
  readonly glyphs: SheetGlyphs;
  /** Where the partials stand, in their order: the middles of their heads. */
  readonly anchors: readonly number[];
  /** Where the staff ends. */
  readonly right: number;
  readonly ink: readonly Box[];
}

/** Half a head: texts begin at its left edge. The staff space is 1.8 mm, the head's width from SMuFL 1.4. */
const HALF_HEAD = 117;
const BAR_NUMBER = 300;
/** A dot that Verovio 6.3 sets into the parenthesis of a ghost note. */
const DOT_IN_PARENTHESIS = /(#glyph-E26B"[^>]*><\/g><g class="dots"><ellipse cx=")(\d+)"/g;
/** How far to the right it has room: half a parenthesis and a little. */
const BESIDE_PARENTHESIS = 95;

const OUTLINE = /<g id="([0-9A-F]{4,5})-[^"]*">\s*<path transform="scale\(1,-1\)" d="([^"]*)"/g;
const TEXT =
  /<g\b[^>]*class="(dir|mNum)\b[^"]*"[^>]*>\s*<text x="(-?\d+)" y="(-?\d+)"[^>]*>([\s\S]*?)<\/text>\s*<\/g>/g;
const OWN_ID = /^l\d+-[bu]\d+-/;

/**
 * A page of one system as Verovio 6.3 engraves it (option svgViewBox), with its styles taken off, which the page's
 * policy refuses, and its anchors read.
 *
 * @throws Error when it is not built as that version builds it.
 */
export function engravedPage(svg: string): EngravedPage {
  const size = /<svg viewBox="0 0 (\d+) \d+"/.exec(svg);
  const start = /<g class="page-margin" transform="translate\((\d+), \d+\)">/.exec(svg);
  const end = svg.lastIndexOf('</g>');
  if (!size || !start || end < start.index)
    throw new Error('The engraver answered otherwise than it is known to.');
  const glyphs = Object.fromEntries(
    [...svg.matchAll(OUTLINE)].map(([, code, outline]) => [code!, outline!]),
  );
  const anchors: number[] = [];
  const content = svg
    .slice(start.index + start[0].length, end)
    .replace(TEXT, (_, name: string, x: string, y: string, inside: string) => {
      if (name === 'dir') anchors.push(Number(x) + HALF_HEAD);
      return name === 'dir' ? '' : barNumber(x, y, inside.replace(/<[^>]*>/g, '').trim());
    });
  const body = plain(content);
  return {
    width: Number(size[1]) * 10,
    body,
    glyphs,
    anchors: anchors.sort((a, b) => a - b),
    right: Math.max(...[...body.matchAll(STAFF_LINE)].map(([, right]) => Number(right))),
    ink: inkOf(body, glyphs),
  };
}

const barNumber = (x: string, y: string, number: string): string =>
  `<text class="bar-number" x="${x}" y="${y}" font-size="${BAR_NUMBER}" stroke="none">${number}</text>`;

function plain(content: string): string {
  return withoutEmpty(
    content
      .replace(/<style\b[\s\S]*?<\/style>/g, '')
      .replace(/ id="([^"]*)"/g, (whole, id: string) => (OWN_ID.test(id) ? whole : ''))
      .replace(/xlink:href="#([0-9A-F]+)-[^"]*"/g, 'href="#glyph-$1"')
      .replace(/>\s+</g, '><')
      .replace(/ \/>/g, '/>')
      .replace(
        DOT_IN_PARENTHESIS,
        (_, ahead: string, x: string) => `${ahead}${Number(x) + BESIDE_PARENTHESIS}"`,
      )
      .trim(),
  );
}

function withoutEmpty(text: string): string {
  const less = text.replace(/<g\b[^>]*\/>|<g\b(?:[^>]*[^/>])?><\/g>/g, '');
  return less === text ? text : withoutEmpty(less);
}

const STAFF_LINE = /<path d="M-?\d+ -?\d+ L(-?\d+) -?\d+" stroke-width="13"/g;
const LINE = /<path d="M(-?\d+) (-?\d+) L(-?\d+) (-?\d+)"/g;
const POINTS = /points="([^"]*)"/g;
const USE =
  /<use href="#glyph-([0-9A-F]+)" transform="translate\((-?[\d.]+), (-?[\d.]+)\) scale\((-?[\d.]+), -?[\d.]+\)"/g;
const NUMBER = /<text class="bar-number" x="(-?\d+)" y="(-?\d+)"/g;

/** Boxes around everything that is drawn. */
function inkOf(body: string, glyphs: SheetGlyphs): readonly Box[] {
  const outlines = new Map(Object.entries(glyphs).map(([code, path]) => [code, outlineBox(path)]));
  const lines = [...body.matchAll(LINE)].map(([, ...ends]) => {
    const [x1, y1, x2, y2] = ends.map(Number) as [number, number, number, number];
    return boxOf([
      [x1, y1],
      [x2, y2],
    ]);
  });
  const shapes = [...body.matchAll(POINTS)].map(([, points]) =>
    boxOf(points!.trim().split(/\s+/).map(pairOf)),
  );
  const heads = [...body.matchAll(USE)].map(([, code, ...place]) => {
    const [x, y, scale] = place.map(Number) as [number, number, number];
    const { left, top, right, bottom } = outlines.get(code!)!;
    return {
      left: x + left * scale,
      top: y - bottom * scale,
      right: x + right * scale,
      bottom: y - top * scale,
    };
  });
  const numbers = [...body.matchAll(NUMBER)].map(([, x, y]) => ({
    left: Number(x),
    top: Number(y) - BAR_NUMBER,
    right: Number(x) + BAR_NUMBER,
    bottom: Number(y),
  }));
  return [...lines, ...shapes, ...heads, ...numbers];
}

const pairOf = (words: string): readonly [number, number] =>
  words.split(',').map(Number) as [number, number];
