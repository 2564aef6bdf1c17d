import type { SheetPicture } from '../../../src/notation/sheet/engrave-sheet';
import { glyphOutlines } from '../../../src/notation/sheet/sheet-file';
import type { SheetLook } from '../../../src/notation/sheet/sheet-look';
import {
  eventsOf,
  STAFF_VOICES,
  type Score,
  type ScoreBar,
} from '../../../src/notation/score/score';
import { sheetSvg } from './sheet-svg';

// What a sheet looks like is measured by the browser's own boxes of what it has drawn, and held against the score it
// was drawn from: nothing here knows how the lines were laid out.

interface Box {
  readonly what: string;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** So near may edges come, hundredths of a millimetre. */
const TOUCH = 12;
/** A text stands under its stroke as long as their middles are within a quarter of a head, 0.6 mm. */
const UNDER = 60;
/** Height of capitals and figures, of a text's size, in any usual face. */
const CAPITAL = 0.72;

const middle = ({ left, right }: Box): number => (left + right) / 2;
const overlap = (a: Box, b: Box): boolean =>
  a.left + TOUCH < b.right &&
  b.left + TOUCH < a.right &&
  a.top + TOUCH < b.bottom &&
  b.top + TOUCH < a.bottom;

/** What of a drawn sheet is not as it should be, in words. */
export function sheetFaults(
  host: HTMLElement,
  score: Score,
  picture: SheetPicture,
  look: SheetLook,
): readonly string[] {
  host.replaceChildren(sheetSvg('0 0 1 1', `<defs>${glyphOutlines([picture])}</defs>`));
  let from = 0;
  const faults = picture.lines.flatMap((line, i) => {
    const drawn = sheetSvg(`0 0 ${line.width} ${line.height}`, line.body);
    drawn.setAttribute('width', '1000');
    host.append(drawn);
    const bars = barsOf(score, drawn, from);
    from += bars.length;
    return lineFaults(drawn, { score, bars, look }).map((fault) => `line ${i + 1}: ${fault}`);
  });
  if (from !== score.bars.length) faults.push(`${from} bars drawn of ${score.bars.length}`);
  return [...faults, ...nameFaults(host, score)];
}

/** As many bars as the line has measures. */
const barsOf = ({ bars }: Score, drawn: SVGElement, from: number): readonly ScoreBar[] =>
  bars.slice(from, from + drawn.querySelectorAll('.measure').length);

interface Line {
  readonly score: Score;
  readonly bars: readonly ScoreBar[];
  readonly look: SheetLook;
}

function lineFaults(drawn: SVGSVGElement, line: Line): readonly string[] {
  const inLine = boxIn(drawn);
  const all = (selector: string) => [...drawn.querySelectorAll<SVGGraphicsElement>(selector)];
  const texts = all('text').map((text) => textBox(text, inLine(text)));
  const heads = all('.note > .notehead').map((head) => inLine(head, head.querySelector('use')!));
  const ink = all('.measure use, .measure polygon, .stem path, .barLine path, .dots ellipse').map(
    (one) => inLine(one),
  );
  const rests = all('.rest').map((rest) => inLine(rest, rest.querySelector('use')!));
  const signs = all('.acc, .open, .stop').map((sign) => inLine(sign));
  const { width, height } = drawn.viewBox.baseVal;
  const outside = [...texts, ...ink, ...signs].filter(
    ({ left, top, right, bottom }) => left < 0 || top < 0 || right > width || bottom > height,
  );
  return [
    ...outside.map(({ what }) => `${what} is cut off`),
    ...pairs(texts, texts).map(([a, b]) => `${a.what} and ${b.what} lie on each other`),
    ...pairs(texts, [...ink, ...signs]).map(([a, b]) => `${a.what} lies on ${b.what}`),
    ...pairs(signs, [...ink, ...signs]).map(([a, b]) => `${a.what} lies on ${b.what}`),
    ...pairs(rests, heads).map(([a, b]) => `${a.what} lies on ${b.what}`),
    ...headFaults(heads),
    ...countFaults(drawn, line),
    ...underFaults(drawn, texts, line),
    ...cycleFaults(drawn, line),
  ];
}

/** Pairs that lie on each other, each once. */
function pairs(some: readonly Box[], others: readonly Box[]): readonly (readonly [Box, Box])[] {
  return some.flatMap((a, i) =>
    others
      .filter((b, j) => (some === others ? j > i : a !== b) && overlap(a, b))
      .map((b) => [a, b] as const),
  );
}

/** Boxes of elements, as the browser has drawn them, in the line's own measure. */
function boxIn(drawn: SVGSVGElement) {
  const toLine = drawn.getScreenCTM()!.inverse();
  return (element: SVGGraphicsElement, of: SVGGraphicsElement = element): Box => {
    const { x, y, width, height } = of.getBBox();
    const matrix = toLine.multiply(of.getScreenCTM()!);
    const corners = [
      new DOMPoint(x, y).matrixTransform(matrix),
      new DOMPoint(x + width, y + height).matrixTransform(matrix),
    ];
    const kind = element.getAttribute('class') ?? element.closest('[class]')!.getAttribute('class');
    return {
      what: `${kind} "${element.textContent || (element.getAttribute('href') ?? element.tagName)}"`,
      left: Math.min(...corners.map((corner) => corner.x)),
      top: Math.min(...corners.map((corner) => corner.y)),
      right: Math.max(...corners.map((corner) => corner.x)),
      bottom: Math.max(...corners.map((corner) => corner.y)),
    };
  };
}

/** The browser's box of a text has the height of its line; the letters' own is from their foot to that of a capital. */
function textBox(text: SVGGraphicsElement, box: Box): Box {
  const size = Number(text.getAttribute('font-size'));
  const style = getComputedStyle(text);
  const context = document.createElement('canvas').getContext('2d')!;
  context.font = `${style.fontWeight} 100px ${style.fontFamily}`;
  const { fontBoundingBoxAscent, fontBoundingBoxDescent } = context.measureText('R');
  const whole = fontBoundingBoxAscent + fontBoundingBoxDescent;
  const foot = box.top + ((box.bottom - box.top) * fontBoundingBoxAscent) / whole;
  return { ...box, top: foot - CAPITAL * size, bottom: foot };
}

/** Heads of different moments lie on each other nowhere. */
const headFaults = (heads: readonly Box[]): readonly string[] =>
  pairs(heads, heads)
    .filter(([a, b]) => Math.abs(middle(a) - middle(b)) > UNDER)
    .map(([a, b]) => `heads on each other: ${a.what}, ${b.what}`);

/** As many of everything as the score has. */
function countFaults(drawn: SVGElement, { score, bars, look }: Line): readonly string[] {
  const events = bars.flatMap((bar) => STAFF_VOICES.flatMap((voice) => eventsOf(bar, voice)));
  const notes = events.flatMap((event) => event.notes);
  const graces = events.flatMap((event) => event.graces);
  const struck = events.filter((event) => event.notes.length > 0);
  const hasOpen = score.bars.some((bar) =>
    STAFF_VOICES.some((voice) =>
      eventsOf(bar, voice).some((event) =>
        event.notes.some((note) => note.voice === 'hi-hat open'),
      ),
    ),
  );
  const having = (test: (voice: string, level: string) => boolean) =>
    struck.filter((event) => event.notes.some(({ voice, level }) => test(voice, level))).length;
  const stickings = bars.flatMap((bar) => bar.stickings).filter((sticking) => sticking !== '');
  const isGhost = ({ level }: { level: string }) => level === 'ghost';
  const wanted: Readonly<Record<string, number>> = {
    '.note .notehead': notes.length + graces.length,
    '.note.ghost .notehead use[href="#glyph-E26A"]': [...notes, ...graces].filter(isGhost).length,
    '.note.ghost .notehead use[href="#glyph-E26B"]': [...notes, ...graces].filter(isGhost).length,
    '.rest use': events.length - struck.length,
    '.acc': having((_, level) => level === 'accent'),
    '.open': having((voice) => voice === 'hi-hat open' || voice === 'hi-hat foot splash'),
    '.stop': hasOpen ? having((voice) => voice === 'hi-hat closed') : 0,
    'text.count, text.beat': look.hasCounts
      ? bars.reduce((all, { partials }) => all + partials, 0)
      : 0,
    'text.sticking': look.hasStickings
      ? stickings.reduce((all, sticking) => all + sticking.split('+').length, 0)
      : 0,
    'text.tuplet': bars
      .flatMap(({ voices }) => [...voices.hands, ...voices.feet])
      .filter(({ tuplet }) => tuplet !== undefined).length,
    '.cycle-line': cyclesOf(score, bars).length,
  };
  return Object.entries(wanted)
    .map(([selector, count]) => [selector, count, drawn.querySelectorAll(selector).length] as const)
    .filter(([, count, found]) => count !== found)
    .map(([selector, count, found]) => `${found} of ${count} ${selector}`);
}

/** Every count and letter stands in the middle under the head that it tells. */
function underFaults(
  drawn: SVGSVGElement,
  texts: readonly Box[],
  { bars, look }: Line,
): readonly string[] {
  const inLine = boxIn(drawn);
  const heads = new Map<string, number>();
  for (const note of drawn.querySelectorAll<SVGGElement>('.note[id]')) {
    const [, at] = /^l\d+-([bu]\d+-p\d+)-[RLKF]$/.exec(note.id) ?? [];
    const use = note.querySelector<SVGGraphicsElement>('.notehead use');
    if (at !== undefined && use) heads.set(note.id.replace(/^l\d+-/, ''), middle(inLine(use)));
  }
  const rowOf = (kind: RegExp) =>
    texts.filter(({ what }) => kind.test(what)).sort((a, b) => middle(a) - middle(b));
  const counts = rowOf(/^(count|beat) /);
  const stickings = rowOf(/^sticking /);
  const faults: string[] = [];
  let i = 0;
  for (const bar of bars)
    for (let k = 0; k < bar.partials; k++, i++) {
      const number = bar.number < 1 ? `u${-bar.number}` : `b${bar.number}`;
      const offset = bar.partial - (bar.number - 1) * bars.at(-1)!.partials;
      const limbs = ['R', 'L', 'K', 'F'].flatMap((limb) => {
        const x = heads.get(`${number}-p${offset + k}-${limb}`);
        return x === undefined ? [] : [{ limb, x }];
      });
      if (look.hasCounts && limbs.length > 0) {
        const near = Math.min(...limbs.map(({ x }) => Math.abs(x - middle(counts[i]!))));
        if (near > UNDER) faults.push(`count ${bar.counts[k]} of bar ${bar.number} is ${near} off`);
      }
      if (!look.hasStickings) continue;
      for (const { limb, x } of limbs) {
        const own = stickings.filter(({ what }) => what.endsWith(`${limb}"`));
        if (!own.some((one) => Math.abs(middle(one) - x) <= 3.5 * UNDER))
          faults.push(`no ${limb} under its head at ${bar.number}, partial ${k}`);
      }
    }
  return faults;
}

const cyclesOf = ({ brackets }: Score, bars: readonly ScoreBar[]) => {
  const from = bars[0]!.partial;
  const to = bars.at(-1)!.partial + bars.at(-1)!.partials;
  return brackets.filter((bracket) => bracket.from < to && bracket.to > from);
};

/** Every cycle of more than two partials is named at least once, on the line where it begins or where it goes on. */
function nameFaults(host: HTMLElement, { brackets }: Score): readonly string[] {
  const names = [...host.querySelectorAll('text.cycle')].map(({ textContent }) =>
    Number(/\d+/.exec(textContent)![0]),
  );
  return brackets
    .filter(({ cycle, from, to }) => to - from > 2 && !names.includes(cycle))
    .map(({ cycle }) => `cycle ${cycle} is named nowhere`);
}

/** A line over each cycle is closed where it begins and where it ends, if it does so here. */
function cycleFaults(drawn: SVGElement, { score, bars }: Line): readonly string[] {
  const from = bars[0]!.partial;
  const to = bars.at(-1)!.partial + bars.at(-1)!.partials;
  const lines = [...drawn.querySelectorAll('.cycle-line')].map((one) => one.getAttribute('d')!);
  return cyclesOf(score, bars).flatMap((bracket, i) => {
    const isLate = bracket.isCut && bracket.from === 0 && bracket === score.brackets[0];
    const isEarly = bracket.isCut && !isLate;
    const begins = bracket.from >= from && !isLate;
    const ends = bracket.to <= to && !isEarly;
    const path = lines[i] ?? '';
    const faults: string[] = [];
    if (/^M-?[\d.]+ -?[\d.]+V/.test(path) !== begins)
      faults.push(`cycle ${bracket.cycle}: its start`);
    if (/v\d+$/.test(path) !== ends) faults.push(`cycle ${bracket.cycle}: its end`);
    return faults;
  });
}
