import type { DBSchema, IDBPDatabase, IDBPTransaction } from 'idb';
import type { StoredTakeSummary } from '../take/take-summary';
import type { PackedCapture } from './packed-capture';
import type { PackedTake } from './packed-take';

/** A phrase or kit of the player's own, as the text of its file. */
export interface OwnText {
  readonly id: string;
  readonly v: number;
  readonly title: string;
  readonly text: string;
  /** ISO 8601. */
  readonly savedAt: string;
}

/** What was added to a take since the part before: the plan as it then was, and the new messages. */
export interface JournalPart {
  readonly takeId: string;
  /** From 0. */
  readonly part: number;
  readonly packed: PackedTake;
}

export interface Tables extends DBSchema {
  /** What the log lists; small. */
  summaries: { key: string; value: StoredTakeSummary; indexes: { startedAt: string } };
  /** One record a take, under the same id. */
  takes: { key: string; value: PackedTake };
  phrases: { key: string; value: OwnText };
  kits: { key: string; value: OwnText };
  /** Takes being played, part by part. */
  journal: { key: [string, number]; value: JournalPart; indexes: { takeId: string } };
  /** What was played to be written down as a phrase. Since version 2. */
  plays: { key: string; value: PackedCapture; indexes: { at: string } };
}

export type TableName = 'summaries' | 'takes' | 'phrases' | 'kits' | 'journal' | 'plays';

/** Raise it with every change to the tables, and say there how older records are read. */
export const DATABASE_VERSION = 2;

/** Versions of the browser's between one of ours and the next: as many times a damaged store can be repaired. */
const REPAIRS = 10;

/** Version 1 stands in the browser as 10, as the library that made the first databases counted. */
export const versionInBrowser = (version: number): number => version * REPAIRS;

/** Whether a database of the browser's version is of ours, repaired or not. */
export const isOurVersion = (inBrowser: number): boolean =>
  Math.floor(inBrowser / REPAIRS) === DATABASE_VERSION;

interface TableLayout {
  readonly keyPath: string | string[];
  readonly index?: string;
}

const TABLES: Readonly<Record<TableName, TableLayout>> = {
  summaries: { keyPath: 'id', index: 'startedAt' },
  takes: { keyPath: 'id' },
  phrases: { keyPath: 'id' },
  kits: { keyPath: 'id' },
  journal: { keyPath: ['takeId', 'part'], index: 'takeId' },
  plays: { keyPath: 'id', index: 'at' },
};

export const TABLE_NAMES = Object.keys(TABLES) as readonly TableName[];

/** Adds what an older or damaged database lacks, or a new one. */
export function createTables(
  database: IDBPDatabase,
  transaction: IDBPTransaction<unknown, string[], 'versionchange'>,
): void {
  for (const [name, { keyPath, index }] of Object.entries(TABLES)) {
    const table = database.objectStoreNames.contains(name)
      ? transaction.objectStore(name)
      : database.createObjectStore(name, { keyPath });
    if (index !== undefined && !table.indexNames.contains(index)) table.createIndex(index, index);
  }
}

/** Whether every table and index is there. */
export function isWhole(database: IDBPDatabase<Tables>): boolean {
  if (!TABLE_NAMES.every((name) => database.objectStoreNames.contains(name))) return false;
  const transaction = database.transaction([...TABLE_NAMES]);
  return TABLE_NAMES.every((name) => {
    const { index } = TABLES[name];
    const { indexNames } = transaction.objectStore(name) as unknown as {
      indexNames: DOMStringList;
    };
    return index === undefined || indexNames.contains(index);
  });
}
