import { parseKit, writeKit } from '../../kit/parse-kit';
import { readDraft } from '../../phrase/file/read-draft';
import { writeDraft } from '../../phrase/file/write-phrase';
import { freeTitle } from '../../phrase/model/free-title';
import type { OwnText, TableName } from '../tables';
import { crc32 } from './crc-32';
import { structuredJson } from './structured-json';

type OwnTextTable = 'phrases' | 'kits';

export const isOwnText = (table: TableName): table is OwnTextTable =>
  table === 'phrases' || table === 'kits';

/** A phrase or kit of the player's own. */
export interface OwnTextEntry {
  readonly table: OwnTextTable;
  readonly record: OwnText;
}

/** The id of a record beside another of its id: always the same, so that it is there once however often it is put back. */
export const besideId = (record: OwnText): string =>
  `${record.id}.${crc32(new TextEncoder().encode(structuredJson(record))).toString(16)}`;

/** A phrase or kit under another id, and under a title that none of those taken has. */
export function textBeside(
  { table, record }: OwnTextEntry,
  taken: readonly string[],
): OwnTextEntry {
  const title = freeTitle(record.title, (number) => `, ${number + 1}`, taken);
  const text = (table === 'kits' ? kitTitled : phraseTitled)(record.text, title);
  return { table, record: { ...record, id: besideId(record), title, text } };
}

function kitTitled(text: string, title: string): string {
  const kit = parseKit(text);
  return kit.ok ? writeKit({ ...kit.value, title }) : text;
}

function phraseTitled(text: string, title: string): string {
  const draft = readDraft(text);
  return draft ? writeDraft({ ...draft, title }) : text;
}
