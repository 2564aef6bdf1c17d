import { keyOfRecord, type RecordEntry } from '../../store/backup/backup-entry';
import type { BackupProblem } from '../../store/backup/backup-problem';
import { restore, type RestoreChoice } from '../../store/backup/restore';
import { planRestore, type RestorePlan } from '../../store/backup/restore-plan';
import { storedEntries, type Keeping } from '../../store/backup/stored-entries';
import { writeBackup, type WrittenBackup } from '../../store/backup/write-backup';
import type { OwnTextStore } from '../../store/own-text-store';
import { isSound } from '../../store/record-shapes';
import { packTake, unpackTake, type PackedTake } from '../../store/packed-take';
import type { StoreProblem } from '../../store/store-problem';
import type { TakeStore } from '../../store/take-store';
import type { TakeError } from '../../take/judgeable-take';
import type { Take } from '../../take/take';
import { writeTake } from '../../take/take-json';
import { bad, good, type Result } from '../../time/result';
import { MOST_CAPTURES } from '../capture/capture-history.svelte';
import type { UnsavedEdits } from '../compose/unsaved-edits';
import type { DamagedRecords } from '../damaged-records.svelte';
import { summaryOf } from '../takes/take-scoring';
import { unsavedPhrases } from './unsaved-phrases';

export interface BackupStores {
  readonly takes: Pick<TakeStore, 'unstored' | 'list' | 'get' | 'add'>;
  readonly phrases: Pick<OwnTextStore, 'unstored'>;
  readonly kits: Pick<OwnTextStore, 'unstored'>;
}

export interface BackupDependencies extends Pick<Keeping, 'database' | 'storage'> {
  readonly stores: BackupStores;
  readonly unsaved: Pick<UnsavedEdits, 'ofAllTabs'>;
  /** What cannot be read: a restore may mend it. */
  readonly damaged: Pick<DamagedRecords, 'forget'>;
  /** Reads again what the app shows of it all. */
  readonly readAgain: () => Promise<void>;
}

/** Everything that was kept, as a plan. */
export interface BackupInFile {
  readonly kind: 'backup';
  readonly plan: RestorePlan;
}

/** A take that was brought in. */
export interface BroughtTake {
  readonly id: string;
  readonly isNew: boolean;
  /** Why it is only in memory, if it is. */
  readonly problem: StoreProblem | undefined;
}

export const UNJUDGEABLE: TakeError = {
  code: 'SHAPE',
  place: 'phrase',
  message: 'The phrase of this take cannot be read, so it cannot be judged.',
};

/** Saves everything that is kept as one file, and takes such a file in again, or a take. */
export class Backups {
  readonly #keeping: Keeping;
  readonly #stores: BackupStores;
  readonly #unsaved: Pick<UnsavedEdits, 'ofAllTabs'>;
  readonly #damaged: Pick<DamagedRecords, 'forget'>;
  readonly #readAgain: () => Promise<void>;

  constructor({ database, storage, stores, unsaved, damaged, readAgain }: BackupDependencies) {
    this.#keeping = { database, storage, unstored: () => unstoredOf(stores) };
    this.#stores = stores;
    this.#unsaved = unsaved;
    this.#damaged = damaged;
    this.#readAgain = readAgain;
  }

  /** @param at ISO 8601 */
  async save(at: string): Promise<Result<WrittenBackup, StoreProblem | BackupProblem>> {
    const unsaved = await this.#unsavedPhrases(at);
    if (!unsaved.ok) return unsaved;
    // Of two records under one key the first counts, and an edit is noted before anything tries to store it.
    const unstored = () => [...unsaved.value, ...this.#keeping.unstored()];
    return writeBackup(storedEntries({ ...this.#keeping, unstored }), at);
  }

  /** What a backup holds, and what would become of it. Nothing is changed. */
  async open(file: Blob): Promise<Result<BackupInFile, BackupProblem | StoreProblem>> {
    const plan = await planRestore(file, this.#keeping, MOST_CAPTURES);
    return plan.ok ? good({ kind: 'backup', plan: await this.#withSummaries(plan.value) }) : plan;
  }

  /** Puts a backup back, all of it or nothing. */
  async putBack(plan: RestorePlan, choice: RestoreChoice): Promise<Result<void, StoreProblem>> {
    const written = await restore(plan, choice, this.#keeping);
    if (written.ok)
      for (const { table, record } of plan.records)
        this.#damaged.forget({ table, key: keyOfRecord(table, record) });
    await this.#readAgain();
    return written;
  }

  /** Takes a take into the log; one that is there already stays the only one. */
  async bringIn(take: Take): Promise<Result<BroughtTake, TakeError>> {
    const figures = summaryOf(take);
    if (!figures) return bad(UNJUDGEABLE);
    const there = await this.#idOf(take);
    if (there !== undefined) return good({ id: there, isNew: false, problem: undefined });
    const { summary, problem } = await this.#stores.takes.add(take, figures);
    await this.#readAgain();
    return good({ id: summary.id, isNew: true, problem });
  }

  async #unsavedPhrases(at: string): Promise<Result<readonly RecordEntry[], StoreProblem>> {
    const edits = this.#unsaved.ofAllTabs;
    if (edits.length === 0) return good([]);
    const stored = await this.#keeping.database.read(['phrases'], (transaction) =>
      transaction.objectStore('phrases').getAll(),
    );
    if (!stored.ok) return stored;
    const sound = stored.value.filter((record) => isSound('phrases', record));
    return good(unsavedPhrases(edits, sound, at));
  }

  async #idOf(take: Take): Promise<string | undefined> {
    const { summaries } = await this.#stores.takes.list();
    for (const { id } of summaries.filter((one) => one.startedAt === take.startedAt)) {
      const stored = await this.#stores.takes.get(id);
      if (stored.ok && stored.value && writeTake(stored.value) === writeTake(take)) return id;
    }
    return undefined;
  }

  /** With the figures of takes whose own were damaged: the log lists none without them. */
  async #withSummaries(plan: RestorePlan): Promise<RestorePlan> {
    const { summaries } = await this.#stores.takes.list();
    const listed = new Set(summaries.map(({ id }) => id));
    for (const { table, record } of plan.records)
      if (table === 'summaries') listed.add((record as { id: string }).id);
    const missing = plan.records.flatMap(({ table, record }): RecordEntry[] => {
      if (table !== 'takes' || listed.has((record as PackedTake).id)) return [];
      const take = unpackTake(record as PackedTake);
      const figures = take && summaryOf(take);
      return figures
        ? [{ table: 'summaries', record: { ...figures, id: (record as PackedTake).id } }]
        : [];
    });
    return { ...plan, records: [...plan.records, ...missing] };
  }
}

const unstoredOf = ({ takes, phrases, kits }: BackupStores): RecordEntry[] => [
  ...takes.unstored.flatMap(({ summary, take }): RecordEntry[] => [
    { table: 'takes', record: packTake(summary.id, take) },
    { table: 'summaries', record: { ...summary } },
  ]),
  ...phrases.unstored.map((record): RecordEntry => ({ table: 'phrases', record })),
  ...kits.unstored.map((record): RecordEntry => ({ table: 'kits', record })),
];
