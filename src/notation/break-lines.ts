import type { ScoreColumn } from './score-columns';

/** Columns that stay together, from one to before another. */
export interface ColumnSpan {
  readonly from: number;
  readonly to: number;
}

/**
 * Where a score line wraps: as many whole bars as fit, bars that do not fit cut evenly by beats, beats that do not fit
 * cut anywhere. The pickup joins the bar after it.
 *
 * @example breakLines([1, 2, 3, 4].map((n) => ({ partial: n - 1, onBeat: n % 2 === 1, onBar: n === 1 })), 3) // => [{ from: 0, to: 2 }, { from: 2, to: 4 }]
 */
export function breakLines(
  columns: readonly Pick<ScoreColumn, 'onBeat' | 'onBar' | 'partial'>[],
  capacity: number,
): readonly ColumnSpan[] {
  const most = Math.max(1, Math.floor(capacity));
  const bars = cutBefore({ from: 0, to: columns.length }, (i) => columns[i]!.onBar);
  return packed(bars, most).flatMap((line) => {
    const length = line.to - line.from;
    if (length <= most) return [line];
    const beats = cutBefore(line, (i) => columns[i]!.onBeat).flatMap((beat) => chunks(beat, most));
    return packed(beats, most, Math.ceil(length / Math.ceil(length / most)));
  });
}

/** A span cut before every column that begins something. */
export function cutBefore(
  { from, to }: ColumnSpan,
  begins: (column: number) => boolean,
): readonly ColumnSpan[] {
  const spans: ColumnSpan[] = [];
  let start = from;
  for (let i = from + 1; i <= to; i++)
    if (i === to || begins(i)) {
      spans.push({ from: start, to: i });
      start = i;
    }
  return spans;
}

/** Neighbours joined while they fit, and no longer than they need to be when a length is aimed at. */
function packed(spans: readonly ColumnSpan[], most: number, aim = most): ColumnSpan[] {
  const lines: ColumnSpan[] = [];
  for (const span of spans) {
    const last = lines.at(-1);
    if (last && last.to - last.from < aim && span.to - last.from <= most)
      lines[lines.length - 1] = { from: last.from, to: span.to };
    else lines.push(span);
  }
  return lines;
}

function chunks({ from, to }: ColumnSpan, most: number): ColumnSpan[] {
  const parts = Math.ceil((to - from) / most);
  const length = Math.ceil((to - from) / parts);
  return Array.from({ length: parts }, (_, i) => ({
    from: from + i * length,
    to: Math.min(to, from + (i + 1) * length),
  }));
}
