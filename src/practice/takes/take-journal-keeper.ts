import type { StoreProblem } from '../../store/store-problem';
import type { JournalledTake, TakeJournal } from '../../store/take-journal';
import type { TakeHead } from '../../take/take';
import { finishedTake } from './finished-take';
import { JournalWriter } from './journal-writer';
import type { TakeRun } from './take-run';

export interface JournalDependencies {
  readonly journal: Pick<TakeJournal, 'begin'>;
  /** Told when writing down fails, and with undefined when it goes on again. */
  readonly tell: (problem: StoreProblem | undefined) => void;
}

/**
 * Writes a take down while it runs. The pump calls `tick`. What a write has not confirmed is written again, under the
 * same number, with what came since.
 */
export class TakeJournalKeeper {
  readonly #journalled: JournalledTake;
  readonly #head: () => TakeHead;
  readonly #tell;
  readonly #writer = new JournalWriter();
  #part = 0;
  #written = 0;
  #planWritten: unknown;
  #commandsWritten = 0;
  #isFailing = false;

  constructor({ journal, tell }: JournalDependencies, head: () => TakeHead) {
    this.#journalled = journal.begin();
    this.#tell = tell;
    this.#head = head;
  }

  /** The take's name in the journal. */
  get id(): string {
    return this.#journalled.id;
  }

  tick(run: TakeRun): void {
    const { log, timeline } = run.take;
    const nowUs = run.nowUs();
    const isNew =
      log.count > this.#written ||
      timeline.plan !== this.#planWritten ||
      run.take.commands.count > this.#commandsWritten;
    if (isNew && this.#writer.isDue(nowUs)) void this.#writer.write(nowUs, this.#write(run, nowUs));
  }

  /** Writes down what is new at once: the page may be left. */
  flush(run: TakeRun): void {
    const nowUs = run.nowUs();
    if (run.take.log.count > this.#written) void this.#writer.write(nowUs, this.#write(run, nowUs));
  }

  async #write(run: TakeRun, nowUs: number): Promise<void> {
    const { log, timeline } = run.take;
    const { count } = log;
    const commands = run.take.commands.count;
    const { plan } = timeline;
    const take = finishedTake(run.take, this.#head(), nowUs, this.#written);
    const part = this.#part;
    const stored = await this.#journalled.keep(part, take);
    if (stored.ok) {
      this.#part = part + 1;
      this.#written = count;
      this.#planWritten = plan;
      this.#commandsWritten = commands;
    }
    if (stored.ok !== this.#isFailing) return;
    this.#isFailing = !stored.ok;
    this.#tell(stored.ok ? undefined : stored.errors[0]);
  }

  /** The take is in the log: the journal can let go of it. */
  async end(): Promise<void> {
    await this.#journalled.end();
  }

  /** The take is not in the log: what was written down of it stays. */
  leave(): void {
    this.#journalled.leave();
  }
}
