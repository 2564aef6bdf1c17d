import type { JournalledTake, TakeJournal } from '../store/take-journal';
import { finishedTake } from './finished-take';
import { JournalWriter } from './journal-writer';
import type { TakeRun } from './take-run';

/** Writes a take down while it runs. The pump calls `tick`. */
export class TakeJournalKeeper {
  readonly #journalled: JournalledTake;
  readonly #phraseText: string;
  readonly #startedAt: string;
  readonly #writer = new JournalWriter();
  #written = 0;
  #planWritten: unknown;

  constructor(journal: Pick<TakeJournal, 'begin'>, phraseText: string, startedAt: string) {
    this.#journalled = journal.begin();
    this.#phraseText = phraseText;
    this.#startedAt = startedAt;
  }

  /** The take's name in the journal. */
  get id(): string {
    return this.#journalled.id;
  }

  tick(run: TakeRun): void {
    const { log, timeline } = run.take;
    const nowUs = run.nowUs();
    const isNew = log.count > this.#written || timeline.plan !== this.#planWritten;
    if (!isNew || !this.#writer.isDue(nowUs)) return;
    const take = finishedTake(run.take, this.#phraseText, this.#startedAt, nowUs, this.#written);
    this.#written = log.count;
    this.#planWritten = timeline.plan;
    void this.#writer.write(nowUs, this.#journalled.keep(take));
  }

  /** The take is in the log: the journal can let go of it. */
  async end(): Promise<void> {
    await this.#journalled.end();
  }
}
