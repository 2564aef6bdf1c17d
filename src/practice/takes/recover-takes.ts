import type { DamagedRecord, PracticeDatabase } from '../../store/database';
import type { TakeStore } from '../../store/take-store';
import { unfinishedTakes } from '../../store/unfinished-takes';
import { summaryOf } from './take-scoring';

export interface Recovery {
  readonly database: PracticeDatabase;
  readonly takes: Pick<TakeStore, 'add' | 'get'>;
  /** Told of a take that cannot be judged any more: its parts stay in the journal. */
  readonly onDamaged: (damaged: DamagedRecord) => void;
}

/** Puts takes that were cut short into the log, each by itself; how many that were. */
export async function recoverTakes({ database, takes, onDamaged }: Recovery): Promise<number> {
  let count = 0;
  for (const { id, take, firstPart, forget } of await unfinishedTakes(database)) {
    const stored = await takes.get(id);
    const inLog = (stored.ok && stored.value?.messages) || [];
    const messages = firstPart === 0 ? take.messages : [...inLog, ...take.messages];
    // An empty one is nothing; one that is there in full was stored after all. A page that stood still may have played
    // on after another had put its take into the log.
    if (messages.length > inLog.length) {
      const whole = { ...take, messages };
      const summary = summaryOf(whole);
      if (!summary) {
        onDamaged({ table: 'journal', key: [id, firstPart], record: take });
        continue;
      }
      const { problem } = await takes.add(whole, summary, id);
      if (problem) continue;
      count++;
    }
    await forget();
  }
  return count;
}
