import { csvText, type RowFigures, sumOfRows, type TakeRow } from '../../index';
import { countOf, shortText } from '../../words/words';
import { fixed, percent, signed, table } from '../table';
import type { TakeAnswer } from './judge-take';

/** Takes by name, each with its row or why there is none. */
export interface TakesReport {
  readonly rows: readonly { readonly take: string; readonly row: TakeRow }[];
  readonly unread: readonly { readonly take: string; readonly why: string }[];
  readonly all: RowFigures;
}

export function takesReport(paths: readonly string[], answers: readonly TakeAnswer[]): TakesReport {
  const rows = answers.flatMap((answer, i) =>
    'row' in answer ? [{ take: paths[i]!, row: answer.row }] : [],
  );
  const unread = answers.flatMap((answer, i) =>
    'unread' in answer ? [{ take: paths[i]!, why: answer.unread }] : [],
  );
  return { rows, unread, all: sumOfRows(rows.map(({ row }) => row)) };
}

const shareOf = ({ asWritten, notes }: RowFigures) => (notes > 0 ? asWritten / notes : undefined);
const passes = ({ rows }: TakesReport) => rows.filter(({ row }) => row.passed).length;
const ALL = 'all';

/** A table for a terminal: a row a take, then all of them, then those that could not be read. */
export function takesText(report: TakesReport): string {
  const { rows, all } = report;
  const areOfOne = new Set(rows.map(({ row }) => row.phrase)).size === 1;
  const figures = (row: RowFigures) => [
    ...[String(row.notes), percent(shareOf(row)), String(row.missed), String(row.extras)],
    ...[signed(row.offsetMeanMs, 1), fixed(row.offsetSpreadMs, 1)],
  ];
  const lines = table(
    ['take', 'layer', 'bpm', 'notes', 'as written', 'missed', 'extra', 'mean', 'spread', 'passed'],
    [
      ...rows.map(({ take, row }) => [
        ...[take, `${row.layer} ${row.layerName}`, shortText(row.tempoBpm, 1)],
        ...[...figures(row), row.passed ? 'yes' : 'no'],
      ]),
      [ALL, '', '', ...figures(all), `${passes(report)} of ${rows.length}`],
    ],
  ).split('\n');
  const spoken = rows.map(({ row }) => `${areOfOne ? '' : `${row.phrase}. `}${row.finding}`);
  const width = Math.max(...lines.map(({ length }) => length));
  return [
    `${areOfOne ? `${rows[0]!.row.phrase} · ` : ''}${countOf(rows.length, 'take')}`,
    '',
    ...lines.map((line, i) => `${line.padEnd(width)}  ${spoken[i - 1] ?? ''}`.trimEnd()),
    ...unreadLines(report),
  ].join('\n');
}

function unreadLines({ rows, unread }: TakesReport): string[] {
  if (unread.length === 0) return [];
  const files = countOf(rows.length + unread.length, 'file');
  return ['', `${unread.length} of ${files} not read:`, ...unread.map(({ why }) => `  ${why}`)];
}

const orNull = <T>(value: T | undefined): T | null => value ?? null;

const figuresJson = (row: RowFigures) => ({
  notes: row.notes,
  asWritten: orNull(shareOf(row)),
  inTime: row.inTime,
  early: row.early,
  late: row.late,
  wrongVoice: row.wrongVoice,
  missed: row.missed,
  extras: row.extras,
  offsetMeanMs: orNull(row.offsetMeanMs),
  offsetSpreadMs: orNull(row.offsetSpreadMs),
});

/** One object; other programs rely on its form. */
export const takesJson = (report: TakesReport) => ({
  takes: report.rows.map(({ take, row }) => ({
    take,
    phrase: row.phrase,
    layer: row.layer,
    layerName: row.layerName,
    tempoBpm: row.tempoBpm,
    ...figuresJson(row),
    contrastDb: orNull(row.contrastDb),
    passed: row.passed,
    finding: row.finding,
  })),
  unread: report.unread,
  all: { takes: report.rows.length, passed: passes(report), ...figuresJson(report.all) },
});

const HEAD = [
  ...['take', 'phrase', 'layer', 'layer_name', 'tempo_bpm', 'notes', 'as_written', 'in_time'],
  ...['early', 'late', 'wrong_voice', 'missed', 'extra', 'offset_mean_ms', 'offset_spread_ms'],
  ...['contrast_db', 'passed', 'finding', 'not_read'],
];

const rounded = (value: number | undefined, decimals: number) =>
  value === undefined ? undefined : Number(value.toFixed(decimals));

const figuresCells = (row: RowFigures) => [
  ...[row.notes, rounded(shareOf(row), 4), row.inTime, row.early, row.late, row.wrongVoice],
  ...[row.missed, row.extras, rounded(row.offsetMeanMs, 3), rounded(row.offsetSpreadMs, 3)],
];

/** The same as comma-separated values: a row a take, then those not read, then all. */
export const takesCsv = (report: TakesReport): string =>
  csvText([
    HEAD,
    ...report.rows.map(({ take, row }) => [
      ...[take, row.phrase, row.layer, row.layerName, rounded(row.tempoBpm, 3)],
      ...figuresCells(row),
      ...[rounded(row.contrastDb, 2), row.passed ? 'yes' : 'no', row.finding, undefined],
    ]),
    ...report.unread.map(({ take, why }) => [
      take,
      ...Array.from({ length: HEAD.length - 2 }, () => undefined),
      why,
    ]),
    [
      ...[ALL, undefined, undefined, undefined, undefined],
      ...figuresCells(report.all),
      ...[undefined, `${passes(report)} of ${report.rows.length}`, undefined, undefined],
    ],
  ]);
