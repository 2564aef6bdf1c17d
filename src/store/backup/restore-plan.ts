import { good, type Result } from '../../time/result';
import type { StoreProblem } from '../store-problem';
import { captureOrder, type PackedCapture } from '../packed-capture';
import { TABLE_NAMES, type OwnText, type TableName } from '../tables';
import { BACKUP_LIMITS, type RecordEntry } from './backup-entry';
import type { BackupProblem } from './backup-problem';
import { ComparedEntries, FATES, type ComparedRecord, type Fate } from './compare-entries';
import { readBackup } from './read-backup';
import type { Keeping } from './stored-entries';
import { storedSettings } from './stored-settings';
import { isOwnText, type OwnTextEntry } from './text-beside';

/** What is to be done with a backup, before anything is done. */
export interface RestorePlan {
  /** When the backup was saved, ISO 8601. */
  readonly at: string;
  /** How many records of each table come to what. */
  readonly tallies: Readonly<Record<TableName, Readonly<Record<Fate, number>>>>;
  /** To be put into their tables, whatever the player chooses. */
  readonly records: readonly RecordEntry[];
  /** Phrases and kits that are another here: to be put beside those, or in their place. */
  readonly differing: readonly OwnTextEntry[];
  /** Settings that are not here, by name. */
  readonly newSettings: ReadonlyMap<string, string>;
  /** Those that are another here. */
  readonly otherSettings: ReadonlyMap<string, string>;
}

/**
 * Reads a backup and compares it with everything that is here. Writes nothing.
 *
 * @param mostCaptures so many captures are kept; of those in the file the newest come that there is room for
 */
export async function planRestore(
  file: Blob,
  keeping: Keeping,
  mostCaptures: number,
  limits = BACKUP_LIMITS,
): Promise<Result<RestorePlan, BackupProblem | StoreProblem>> {
  const entries = new ComparedEntries(keeping);
  const read = await readBackup(file, (entry) => entries.take(entry), limits);
  if (!read.ok) return read;
  const compared = await entries.all();
  if (!compared.ok) return compared;
  const here = await keeping.database.read(['takes', 'plays'], async (transaction) => ({
    takes: new Set(await transaction.objectStore('takes').getAllKeys()),
    captures: await transaction.objectStore('plays').count(),
  }));
  if (!here.ok) return here;
  const records = withinRoom(
    withoutFinished(compared.value, here.value.takes),
    mostCaptures - here.value.captures,
  );
  const stored = storedSettings(keeping.storage);
  const settings = [...entries.settings];
  const isOf = (fates: readonly Fate[]) => records.filter(({ fate }) => fates.includes(fate));
  return good({
    at: read.value,
    tallies: talliesOf(records),
    records: isOf(['added', 'mended']).map(({ table, record }) => ({ table, record })),
    differing: isOf(['differing']).flatMap(({ table, record }) =>
      isOwnText(table) ? [{ table, record: record as OwnText }] : [],
    ),
    newSettings: new Map(settings.filter(([name]) => !stored.has(name))),
    otherSettings: new Map(
      settings.filter(([name, text]) => stored.has(name) && stored.get(name) !== text),
    ),
  });
}

/** What was written down while a take was played is of no use beside the take itself. */
function withoutFinished(
  records: readonly ComparedRecord[],
  takesHere: ReadonlySet<string>,
): readonly ComparedRecord[] {
  const takes = new Set(takesHere);
  for (const { table, record, fate } of records)
    if (table === 'takes' && fate === 'added') takes.add((record as { id: string }).id);
  return records.map((one) =>
    one.table === 'journal' &&
    one.fate === 'added' &&
    takes.has((one.record as { takeId: string }).takeId)
      ? { ...one, fate: 'present' }
      : one,
  );
}

/** Of the captures that would be added the newest, as many as there is room for: the log of captures forgets old ones. */
function withinRoom(records: readonly ComparedRecord[], room: number): readonly ComparedRecord[] {
  const orderOf = ({ record }: ComparedRecord) => captureOrder(record as PackedCapture);
  const beyond = new Set(
    records
      .filter(({ table, fate }) => table === 'plays' && fate === 'added')
      .sort((a, b) => orderOf(b) - orderOf(a))
      .slice(Math.max(0, room)),
  );
  return records.map((one) => (beyond.has(one) ? { ...one, fate: 'beyond' } : one));
}

function talliesOf(records: readonly ComparedRecord[]): RestorePlan['tallies'] {
  const tallies = Object.fromEntries(
    TABLE_NAMES.map((table) => [table, Object.fromEntries(FATES.map((fate) => [fate, 0]))]),
  ) as Record<TableName, Record<Fate, number>>;
  for (const { table, fate } of records) tallies[table][fate]++;
  return tallies;
}
