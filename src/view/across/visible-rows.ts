/**
 * The rows of a scrolled box that can be seen, as numbers from 0, with one more on either side.
 *
 * @example visibleRows({ top: 250, height: 300, row: 100, rows: 40 }) // => [1, 2, 3, 4, 5, 6]
 */
export function visibleRows(box: {
  /** How far it is scrolled, px. */
  readonly top: number;
  /** What can be seen of it, px. */
  readonly height: number;
  /** A row's height, px. */
  readonly row: number;
  readonly rows: number;
}): readonly number[] {
  const from = Math.max(0, Math.floor(box.top / box.row) - 1);
  const to = Math.min(box.rows, Math.ceil((box.top + box.height) / box.row) + 1);
  return Array.from({ length: Math.max(0, to - from) }, (_, i) => from + i);
}
