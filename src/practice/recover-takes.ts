import type { DamagedRecord } from '../store/database';
import type { TakeJournal } from '../store/take-journal';
import type { TakeStore } from '../store/take-store';
import { summaryOf } from './take-scoring';

export interface Recovery {
  readonly journal: Pick<TakeJournal, 'unfinished' | 'forget'>;
  readonly takes: Pick<TakeStore, 'add' | 'get'>;
  /** Told of a take that cannot be judged any more: its parts stay in the journal. */
  readonly onDamaged: (damaged: DamagedRecord) => void;
}

/** Puts takes that were cut short into the log, each by itself; how many that were. */
export async function recoverTakes({ journal, takes, onDamaged }: Recovery): Promise<number> {
  let count = 0;
  for (const { id, take } of await journal.unfinished()) {
    const stored = await takes.get(id);
    // An empty one is nothing, and one that is there was stored in full after all.
    const isNeeded = take.messages.length > 0 && !(stored.ok && stored.value !== undefined);
    if (isNeeded) {
      const summary = summaryOf(take);
      if (!summary) {
        onDamaged({ table: 'journal', key: [id, 0], record: take });
        continue;
      }
      const { problem } = await takes.add(take, summary, id);
      if (problem) continue;
      count++;
    }
    await journal.forget(id);
  }
  return count;
}
