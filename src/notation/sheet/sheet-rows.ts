import { eventsOf, STAFF_VOICES, type Score, type ScoreBar, type StaffEvent } from '../score/score';
import { noteSigns, tellsClosed, type NoteSign } from '../score/note-signs';
import { boxesBetween, boxOf, type Box } from './box';
import type { EngravedPage } from './engraved-page';
import { rowSign, rowText, ROW_SIZE, UNDERLINE_DEPTH, underline } from './row-shapes';
import type { SheetLook } from './sheet-look';

/** A line of a sheet: a stretch of bars on their staff. */
export interface LineContent {
  readonly score: Score;
  readonly bars: readonly ScoreBar[];
  readonly look: Pick<SheetLook, 'hasStickings' | 'hasCounts' | 'hasMarks'>;
}

/** What is over and under a staff, and how far it reaches. */
export interface DrawnRows {
  readonly body: string;
  readonly top: number;
  readonly bottom: number;
}

/** Room between rows, and around the heads of a column, hundredths of a millimetre. Chosen. */
const GAP = 95;
const AROUND = 130;
const SIGN_HEIGHT = 165;
const TUPLET = { gap: 70, hook: 80, height: 210, line: 16 } as const;
const CYCLE = {
  hook: 110,
  beyond: 150,
  line: 18,
  gap: 70,
  start: 60,
  words: 90,
  rest: 60,
} as const;
/** What a letter measures, of its size; enough for any face (from common faces, no source). */
const CAPITAL = 0.7;
const LETTER_WIDTH = 0.5;

/** What stands over and under the staff of a line. */
export function drawnRows(content: LineContent, page: EngravedPage): DrawnRows {
  const upper = above(content, page);
  const lower = below(content, page);
  return { body: upper.body + lower.body, top: upper.y, bottom: lower.y };
}

interface Part {
  readonly body: string;
  /** How far it reaches, up or down. */
  readonly y: number;
}

function above(content: LineContent, page: EngravedPage): Part {
  const { score, bars } = content;
  const at = anchorsOf(content, page);
  const tuplets = tupletLines(content, page, 'hands');
  let y = Math.min(...[...page.ink, ...tuplets.boxes].map(({ top }) => top));
  let body = tuplets.body;
  for (const isAccent of [false, true]) {
    const row = signsOf(score, bars, 'hands', isAccent);
    if (row.length === 0) continue;
    y -= GAP + SIGN_HEIGHT;
    for (const { partial, sign } of row) body += rowSign(sign, at(partial), y + SIGN_HEIGHT / 2);
  }
  y -= GAP + CYCLE.hook;
  const lines = cycleLines(content, page, y);
  return { body: body + lines, y: y - ROW_SIZE.cycle / 2 };
}

function below(content: LineContent, page: EngravedPage): Part {
  const { score, bars, look } = content;
  const at = anchorsOf(content, page);
  const tuplets = tupletLines(content, page, 'feet');
  let y = Math.max(...[...page.ink, ...tuplets.boxes].map(({ bottom }) => bottom));
  let body = tuplets.body;
  for (const isAccent of [false, true]) {
    const row = signsOf(score, bars, 'feet', isAccent);
    if (row.length === 0) continue;
    y += GAP + SIGN_HEIGHT;
    for (const { partial, sign } of row) body += rowSign(sign, at(partial), y - SIGN_HEIGHT / 2);
  }
  const rows = stickingRows(bars, look);
  for (const row of rows) {
    y += 1.5 * GAP + (look.hasStickings ? CAPITAL * ROW_SIZE.sticking : 0);
    for (const { partial, text, isNew } of row) {
      if (look.hasStickings) body += rowText('sticking', at(partial), y, text);
      if (isNew) body += underline(at(partial), y);
    }
    if (row.some(({ isNew }) => isNew)) y += UNDERLINE_DEPTH;
  }
  if (look.hasCounts) {
    y += 1.5 * GAP + CAPITAL * ROW_SIZE.count;
    for (const bar of bars)
      bar.counts.forEach((count, i) => {
        const name = i % score.subdivision === 0 ? 'beat' : 'count';
        body += rowText(name, at(bar.partial + i), y, count);
      });
  }
  return { body, y };
}

/** Where a partial of the line stands. */
function anchorsOf({ bars }: LineContent, { anchors }: EngravedPage): (partial: number) => number {
  const first = bars[0]!.partial;
  return (partial) => anchors[partial - first]!;
}

function signsOf(
  score: Score,
  bars: readonly ScoreBar[],
  voice: (typeof STAFF_VOICES)[number],
  isAccent: boolean,
): readonly { readonly partial: number; readonly sign: NoteSign }[] {
  const hasClosedSigns = tellsClosed(score);
  return bars.flatMap((bar) =>
    eventsOf(bar, voice).flatMap(({ partial, notes }) =>
      noteSigns(notes, hasClosedSigns)
        .filter((sign) => (sign === 'acc') === isAccent)
        .map((sign) => ({ partial, sign })),
    ),
  );
}

interface RowLetter {
  readonly partial: number;
  readonly text: string;
  readonly isNew: boolean;
}

/** Stickings, the second limb of a partial under its first. */
function stickingRows(
  bars: readonly ScoreBar[],
  { hasStickings, hasMarks }: LineContent['look'],
): readonly (readonly RowLetter[])[] {
  const rows: RowLetter[][] = [];
  for (const bar of bars) {
    const events = STAFF_VOICES.flatMap((voice) => eventsOf(bar, voice));
    bar.stickings.forEach((sticking, i) => {
      const partial = bar.partial + i;
      const here = events.filter((event) => event.partial === partial);
      const limbs = sticking.split('+').filter((limb) => limb !== '');
      limbs.forEach((text, row) => {
        const letter = { partial, text, isNew: hasMarks && isNew(here, text) };
        (rows[row] ??= []).push(letter);
      });
    });
  }
  if (hasStickings) return rows;
  const marked = rows.flat().filter((letter) => letter.isNew);
  return marked.length > 0 ? [marked] : [];
}

/** Whether the layer made or changed the stroke of a sticking such as "lR", or its grace notes. */
function isNew(here: readonly StaffEvent[], sticking: string): boolean {
  const limb = sticking.at(-1)!;
  return here.some(
    ({ notes, graces }) =>
      notes.some((note) => note.limb === limb && note.isNew) ||
      (sticking.length > 1 && graces.some((grace) => grace.isNew)),
  );
}

/** Brackets with the numbers of tuplets, as near to what is under them as they can be. */
function tupletLines(
  content: LineContent,
  page: EngravedPage,
  voice: (typeof STAFF_VOICES)[number],
): { readonly body: string; readonly boxes: readonly Box[] } {
  const at = anchorsOf(content, page);
  const up = voice === 'hands';
  const boxes: Box[] = [];
  let body = '';
  for (const bar of content.bars)
    for (const { events, tuplet } of bar.voices[voice]) {
      if (!tuplet) continue;
      const last = events.at(-1)!;
      const from = at(events[0]!.partial) - AROUND;
      const to = at(last.partial + last.partials - 1) + AROUND;
      const near = boxesBetween(page.ink, from, to);
      const edge = up
        ? Math.min(...near.map(({ top }) => top)) - TUPLET.gap - TUPLET.hook
        : Math.max(...near.map(({ bottom }) => bottom)) + TUPLET.gap + TUPLET.hook;
      const hook = up ? TUPLET.hook : -TUPLET.hook;
      const middle = (from + to) / 2;
      const half = String(tuplet.number).length * 75 + 60;
      body += `<path class="tuplet" d="M${from} ${edge + hook}V${edge}H${middle - half}M${middle + half} ${edge}H${to}V${edge + hook}" fill="none" stroke-width="${TUPLET.line}"/>`;
      body += rowText('tuplet', middle, edge + 85, String(tuplet.number));
      boxes.push(
        boxOf([
          [from, edge - TUPLET.height / 2],
          [to, edge + TUPLET.height / 2],
        ]),
      );
    }
  return { body, boxes };
}

/** A line over each cycle with its number in it; without an end where it goes on in the next line. */
function cycleLines({ score, bars }: LineContent, page: EngravedPage, y: number): string {
  const first = bars[0]!.partial;
  const after = bars.at(-1)!.partial + bars.at(-1)!.partials;
  const x = (partial: number) => page.anchors[partial - first]!;
  return score.brackets
    .filter(({ from, to }) => from < after && to > first)
    .map(({ cycle, from, to, isCut }) => {
      const isFirstCut = isCut && from === 0;
      const begins = from >= first && !isFirstCut;
      const ends = to <= after && !(isCut && !isFirstCut);
      const left = x(Math.max(from, first)) - (begins ? AROUND : AROUND + CYCLE.gap);
      const right = to <= after ? x(to - 1) + CYCLE.beyond : page.right;
      const name = cycleName(cycle, begins, right - left);
      const hook = (has: boolean) => (has ? `v${CYCLE.hook}` : '');
      const start = `M${left} ${begins ? y + CYCLE.hook : y}${begins ? `V${y}` : ''}`;
      const wordsAt = left + CYCLE.words;
      const line = name
        ? `${start}h${CYCLE.start}M${wordsAt + nameWidth(name)} ${y}H${right}`
        : `${start}H${right}`;
      const words = name ? rowText('cycle', wordsAt + 10, y + 95, name) : '';
      return `<path class="cycle-line" d="${line}${hook(ends)}" fill="none" stroke-width="${CYCLE.line}"/>${words}`;
    })
    .join('');
}

const nameWidth = (name: string): number => name.length * LETTER_WIDTH * ROW_SIZE.cycle + 60;

/** The longest name of a cycle that its line has room for, in parentheses where it goes on. */
function cycleName(cycle: number, begins: boolean, room: number): string | undefined {
  const names = cycle === 1 ? ['cycle 1', '1'] : [String(cycle)];
  return names
    .map((name) => (begins ? name : `(${name})`))
    .find((name) => CYCLE.words + nameWidth(name) + CYCLE.rest <= room);
}
