import type { Score, ScoreBar } from '../score/score';
import { eventsOf, STAFF_VOICES } from '../score/score';

/** Which bars begin a line, counted from 0, and how wide the lines are, tenths of a millimetre. */
export interface SheetLines {
  readonly width: number;
  readonly breaks: readonly number[];
}

/** Room of a partial, of a letter of the rows and of a grace note, tenths of a millimetre. Measured on Verovio 6.3. */
const PARTIAL = 42;
const LETTER = 17;
const BETWEEN_TEXTS = 14;
const GRACE = 26;
/** Clef, meter and bar line ahead of the first bar, and margins. */
const FRONT = 260;
const BAR_LINE = 50;

/**
 * Breaks a score into lines as even as may be, each wide enough for its heads and for the texts under them. A bar that
 * does not fit any line makes all of them wider, which prints smaller.
 */
export function sheetLines(score: Score, width: number): SheetLines {
  const widths = score.bars.map((bar) => barWidth(bar));
  const wide = Math.max(width, FRONT + Math.max(...widths, pickupWidth(score, widths)));
  const room = wide - FRONT;
  const greedy = packed(widths, score, room);
  const even = packed(widths, score, room, sum(widths) / greedy.length);
  return { width: wide, breaks: even.length > greedy.length ? greedy : even };
}

/** A pickup stands on the line of the bar after it. */
const pickupWidth = ({ bars }: Score, widths: readonly number[]): number =>
  sum(widths.slice(0, bars.findIndex(({ number }) => number === 1) + 1));

/** The first bars of lines that hold as much as they can, or as little as an aim asks for. */
function packed(
  widths: readonly number[],
  { bars }: Score,
  room: number,
  aim = room,
): readonly number[] {
  const breaks = [0];
  let used = 0;
  widths.forEach((width, i) => {
    const mayBreak = i > 0 && bars[i]!.number > 1;
    if (mayBreak && (used + width > room || used + width / 2 > aim)) {
      breaks.push(i);
      used = 0;
    }
    used += width;
  });
  return breaks;
}

function barWidth(bar: ScoreBar): number {
  const letters = Math.max(
    ...bar.counts.map((count) => count.length),
    ...bar.stickings.flatMap((sticking) => sticking.split('+').map((limb) => limb.length)),
  );
  const graces = sum(
    STAFF_VOICES.flatMap((voice) => eventsOf(bar, voice).map((event) => event.graces.length)),
  );
  const partial = Math.max(PARTIAL, letters * LETTER + BETWEEN_TEXTS);
  return bar.partials * partial + graces * GRACE + BAR_LINE;
}

const sum = (numbers: readonly number[]): number => numbers.reduce((all, one) => all + one, 0);
