import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvText } from '../../src/take/csv';
import { runCount } from '../run-count';

/** The grammar of RFC 4180, letter by letter. */
function rowsOf(csv: string): string[][] {
  const rows: string[][] = [[]];
  let cell = '';
  let isQuoted = false;
  const text = csv.replace(/^\uFEFF/, '');
  for (let i = 0; i < text.length; i++) {
    const letter = text[i]!;
    if (isQuoted && letter === '"' && text[i + 1] === '"') cell += text[i++];
    else if (letter === '"') isQuoted = !isQuoted;
    else if (isQuoted) cell += letter;
    else if (letter === ',' || letter === '\r') {
      rows.at(-1)!.push(cell);
      cell = '';
      if (letter === '\r') rows.push([]);
      if (letter === '\r') i++;
    } else cell += letter;
  }
  return rows.slice(0, -1);
}

describe('csvText', () => {
  // The examples of RFC 4180, section 2, rules 1, 6 and 7
  it.each([
    [[['aaa', 'bbb', 'ccc']], 'aaa,bbb,ccc\r\n'],
    [[['aaa', 'b\r\nbb', 'ccc']], 'aaa,"b\r\nbb",ccc\r\n'],
    [[['aaa', 'b"bb', 'ccc']], 'aaa,"b""bb",ccc\r\n'],
  ])('quotes as RFC 4180 does: %j', (rows, text) => {
    expect(csvText(rows)).toBe(text);
  });

  // What OWASP's page on CSV injection lists, from memory [M]
  it.each(['=1+2', '+1+2', '-1+2', '@SUM(A1)', '\t=1', '\r=1', '=HYPERLINK("a";"b")'])(
    'lets no spreadsheet work out %j',
    (text) => {
      expect(rowsOf(csvText([[text]]))).toEqual([[`'${text}`]]);
    },
  );

  it('leaves numbers alone', () => {
    expect(csvText([['-1.234', -5, undefined, '', 0.5]])).toBe('-1.234,-5,,,0.5\r\n');
  });

  it('has a byte order mark where a letter needs it, and only there', () => {
    expect(csvText([['Säge']])).toBe('\uFEFFSäge\r\n');
    expect(csvText([['Saege']])).toBe('Saege\r\n');
  });

  it('lawCsvRoundTrip: reads back as it was, but for the apostrophe', () => {
    const cell = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 12 }),
      fc.stringMatching(/^[-=+@",\r\n\t a1]{0,6}$/),
    );
    const table = fc.array(fc.array(cell, { minLength: 1, maxLength: 4 }), { maxLength: 4 });
    fc.assert(
      fc.property(table, (rows) => {
        const read = rowsOf(csvText(rows));
        const bare = (row: readonly string[]) => row.map((text) => text.replace(/^'/, ''));
        expect(read.map(bare)).toEqual(rows.map(bare));
        for (const text of read.flat())
          if (/^[=+\-@\t\r\n]/.test(text)) expect(text).toMatch(/^-\d+(?:\.\d+)?$/);
      }),
      { numRuns: runCount(300) },
    );
  });
});
