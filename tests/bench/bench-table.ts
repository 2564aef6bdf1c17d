import type { BenchRow } from './bench-row';

const HEAD = ['benchmark', 'p50', 'slow end', 'ratio', 'aim', 'met', 'asserted first'];

/** The rows as one table, with their notes numbered underneath. */
export function benchTable(rows: readonly BenchRow[]): string {
  const notes = [...new Set(rows.flatMap(({ note }) => note ?? []))];
  const lines = rows.map((row) => [
    row.note === undefined ? row.name : `${row.name} [${notes.indexOf(row.note) + 1}]`,
    row.p50,
    row.tail,
    row.ratio ?? '–',
    row.aim ?? '–',
    row.met === undefined ? '–' : row.met ? 'met' : 'NOT met',
    row.asserted,
  ]);
  const widths = HEAD.map((head, c) =>
    Math.max(head.length, ...lines.map((line) => line[c]!.length)),
  );
  const text = (line: readonly string[]) =>
    line
      .map((cell, c) => cell.padEnd(widths[c]!))
      .join('  ')
      .trimEnd();
  return [
    text(HEAD),
    text(widths.map((width) => '-'.repeat(width))),
    ...lines.map(text),
    '',
    ...notes.map((note, n) => `[${n + 1}] ${note}`),
  ].join('\n');
}
