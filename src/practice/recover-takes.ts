import type { TakeJournal } from '../store/take-journal';
import type { TakeStore } from '../store/take-store';
import { summaryOf } from './take-scoring';

/** Puts takes that were cut short into the log; how many that were. */
export async function recoverTakes(
  journal: Pick<TakeJournal, 'unfinished' | 'forget'>,
  takes: Pick<TakeStore, 'add'>,
): Promise<number> {
  let count = 0;
  for (const { id, take } of await journal.unfinished()) {
    const summary = summaryOf(take);
    if (summary && take.messages.length > 0) {
      const { problem } = await takes.add(take, summary, id);
      if (problem) continue;
      count++;
    }
    await journal.forget(id);
  }
  return count;
}
