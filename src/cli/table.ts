import { decimalText, signedText } from '../words/words';

/** Rows of text in columns, the first flush left, the others flush right. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const all = [head, ...rows];
  const widths = head.map((_, c) =>
    all.reduce((widest, row) => Math.max(widest, row[c]?.length ?? 0), 0),
  );
  return all
    .map((row) =>
      row
        .map((cell, c) => (c === 0 ? cell.padEnd(widths[c]!) : cell.padStart(widths[c]!)))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}

/** A number with so many decimals, or an en dash where there is none. @example fixed(undefined, 1) // => '–' */
export const fixed = (value: number | undefined, decimals: number): string =>
  value === undefined ? '–' : decimalText(value, decimals);

/** A number with its sign. @example signed(3.21, 1) // => '+3.2' */
export const signed = (value: number | undefined, decimals: number): string =>
  value === undefined ? '–' : signedText(value, decimals);

/** A share as per cent. @example percent(0.934) // => '93 %' */
export const percent = (share: number | undefined): string =>
  share === undefined ? '–' : `${Math.floor(share * 100 + 1e-9)} %`;
