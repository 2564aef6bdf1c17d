import type { Result } from '../../time/result';
import { isSound } from '../record-shapes';
import type { StoreProblem } from '../store-problem';
import { TABLE_NAMES } from '../tables';
import { keyOfRecord, type RecordEntry } from './backup-entry';
import type { RestorePlan } from './restore-plan';
import type { Keeping } from './stored-entries';
import { writeSettings } from './stored-settings';
import { textBeside, type OwnTextEntry } from './text-beside';

/** What the player decides before a backup is put back. */
export interface RestoreChoice {
  /** Where phrases and kits go that are another here. */
  readonly differing: 'beside' | 'replace';
  /** Whose settings count where they are another here. */
  readonly settings: 'these' | 'those of the backup';
}

/** What is to be written takes at most so long, or is undone. Chosen: a slow disk, and a few writes a second on it. */
const withinMsOf = (records: number): number => 15_000 + 50 * records;

/**
 * Puts a backup back as planned: all of it, or nothing. What has come here since under a key that was free stays.
 * Error: why nothing was put back.
 */
export async function restore(
  plan: RestorePlan,
  choice: RestoreChoice,
  { database, storage }: Keeping,
): Promise<Result<void, StoreProblem>> {
  const settings = new Map([
    ...plan.newSettings,
    ...(choice.settings === 'these' ? [] : plan.otherSettings),
  ]);
  let undoSettings: () => void = () => undefined;
  const written = await database.write(
    TABLE_NAMES,
    async (transaction) => {
      undoSettings();
      const titlesOf = async (table: 'phrases' | 'kits') =>
        ((await transaction.objectStore(table).getAll()) as unknown[]).map(titleOf);
      const taken = { phrases: await titlesOf('phrases'), kits: await titlesOf('kits') };
      const put = async ({ table, record }: RecordEntry, replaces = false) => {
        const records = transaction.objectStore(table);
        const here: unknown = await records.get(keyOfRecord(table, record) as never);
        // Sound, and not there when it was planned: it has come since.
        if (replaces || !isSound(table, here)) await records.put(record as never);
      };
      const beside = (one: OwnTextEntry) => {
        const entry = textBeside(one, taken[one.table]);
        taken[one.table].push(entry.record.title);
        return entry;
      };
      const replaces = choice.differing === 'replace';
      await Promise.all([
        ...plan.records.map((one) => put(one)),
        ...plan.differing.map((one) => (replaces ? put(one, true) : put(beside(one)))),
      ]);
      undoSettings = writeSettings(storage, settings);
    },
    withinMsOf(plan.records.length + plan.differing.length),
  );
  if (!written.ok) undoSettings();
  return written;
}

const titleOf = (record: unknown): string => String((record as { title?: unknown } | null)?.title);
