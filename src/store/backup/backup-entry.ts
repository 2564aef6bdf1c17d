import type { TableName } from '../tables';

/** Raise it when the lines change, and read the older ones. */
export const BACKUP_VERSION = 1;

export interface RecordEntry {
  readonly table: TableName;
  readonly record: unknown;
}

/** The key that a sound record of a table has. */
export function keyOfRecord(table: TableName, record: unknown): IDBValidKey {
  const { id, takeId, part } = record as { id: string; takeId: string; part: number };
  return table === 'journal' ? [takeId, part] : id;
}

/** A record as it stands in its table, or a setting as the text that is stored. */
export type BackupEntry = RecordEntry | { readonly setting: string; readonly text: string };

/** An entry as a file has it: nobody has looked at the record, nor whether there is such a table. */
export type EntryInFile =
  | { readonly table: string; readonly record: unknown }
  | { readonly setting: string; readonly text: string };

/** What a file may hold; a page would run out of memory with more. Chosen: a thousand takes are a tenth of it. */
export interface BackupLimits {
  readonly fileBytes: number;
  /** Unpacked: a small file may hold any amount. */
  readonly textBytes: number;
  readonly lineCharacters: number;
  readonly entries: number;
}

export const BACKUP_LIMITS: BackupLimits = {
  fileBytes: 500e6,
  textBytes: 1e9,
  lineCharacters: 32e6,
  entries: 200_000,
};
