import type { JournalledTake, TakeJournal } from '../store/take-journal';
import type { TakeStore } from '../store/take-store';
import { finishedTake, summaryOf } from './finished-take';
import type { TakeRun } from './take-run';

/** How often new messages are written down, ms: a killed browser loses no more than this and the writing. Chosen. */
const EVERY_MS = 400;

/** Writes a take down while it runs. The pump calls `tick`; nothing happens at a stroke. */
export class JournalKeeper {
  readonly #journalled: JournalledTake;
  readonly #phraseText: string;
  readonly #startedAt: string;
  #kept = 0;
  #planKept: unknown;
  #lastMs = -Infinity;
  #writing = false;

  constructor(journal: Pick<TakeJournal, 'begin'>, phraseText: string, startedAt: string) {
    this.#journalled = journal.begin();
    this.#phraseText = phraseText;
    this.#startedAt = startedAt;
  }

  get id(): string {
    return this.#journalled.id;
  }

  tick(run: TakeRun, nowMs: number): void {
    const { log, timeline } = run.take;
    const isNew = log.count > this.#kept || timeline.plan !== this.#planKept;
    if (!isNew || this.#writing || nowMs - this.#lastMs < EVERY_MS) return;
    const take = finishedTake(run.take, this.#phraseText, this.#startedAt, run.nowUs(), this.#kept);
    this.#kept = log.count;
    this.#planKept = timeline.plan;
    this.#lastMs = nowMs;
    this.#writing = true;
    void this.#journalled.keep(take).finally(() => (this.#writing = false));
  }

  async end(): Promise<void> {
    await this.#journalled.end();
  }
}

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
