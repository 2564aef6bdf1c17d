/** A number stands as it is, what is not there stays empty. */
export type CsvCell = string | number | undefined;

/** What a cell cannot hold without quotes (RFC 4180). */
const NEEDS_QUOTES = /[",\r\n]/;
/** What a spreadsheet takes for a formula. A number with its sign is none. */
const LIKE_A_FORMULA = /^[=+\-@\t\r\n]/;
const NUMBER = /^-?\d+(?:\.\d+)?$/;
/** Tells spreadsheets that the bytes are UTF-8. */
const BYTE_ORDER_MARK = '\uFEFF';
const BEYOND_ASCII = /[\u0080-\uFFFF]/;

/**
 * Rows as comma-separated values (RFC 4180): lines end in CR LF, the last one too. A text that a spreadsheet would work
 * out as a formula gets an apostrophe ahead of it. UTF-8; a byte order mark stands ahead only where a letter beyond ASCII
 * does: spreadsheets need it there, and programs that do not expect it are spared it elsewhere.
 *
 * @example csvText([['take', 'notes'], ['=A1', 3]]) // => "take,notes\r\n'=A1,3\r\n"
 */
export function csvText(rows: readonly (readonly CsvCell[])[]): string {
  const text = rows.map((row) => `${row.map(cellText).join(',')}\r\n`).join('');
  return BEYOND_ASCII.test(text) ? BYTE_ORDER_MARK + text : text;
}

function cellText(cell: CsvCell): string {
  if (typeof cell !== 'string') return cell === undefined ? '' : String(cell);
  const safe = LIKE_A_FORMULA.test(cell) && !NUMBER.test(cell) ? `'${cell}` : cell;
  return NEEDS_QUOTES.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
