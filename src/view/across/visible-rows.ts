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

/** Columns are drawn in lots of so many, so that a small step sideways draws nothing anew. Chosen, not measured. */
const LOT = 16;

/**
 * The partials of a bar that can be seen, from one (from 0) up to before another.
 *
 * @example visibleColumns({ left: 1000, width: 360, slot: 20, partials: 384 }) // => { from: 48, to: 80 }
 */
export function visibleColumns(box: {
  /** How far it is scrolled, px. */
  readonly left: number;
  /** What can be seen of it, px. */
  readonly width: number;
  /** A partial's width, px. */
  readonly slot: number;
  readonly partials: number;
}): { readonly from: number; readonly to: number } {
  const lot = LOT * box.slot;
  return {
    from: Math.min(Math.floor(box.left / lot) * LOT, Math.max(0, box.partials - 1)),
    to: Math.min(box.partials, (Math.floor((box.left + box.width) / lot) + 1) * LOT),
  };
}
