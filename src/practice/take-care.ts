import { startPump } from '../clock/pump';
import { keepScreenOn } from '../clock/wake-lock';
import type { TakeJournal } from '../store/take-journal';
import { InterruptionWatch } from './interruption-watch';
import { JournalKeeper } from './journal-keeper';
import type { TakeRun } from './take-run';

export interface TakeCareParts {
  readonly run: TakeRun;
  readonly journal: Pick<TakeJournal, 'begin'>;
  /** The phrase's file, and when the take was started, ISO 8601. */
  readonly phraseText: string;
  readonly startedAt: string;
  readonly nowMs: () => number;
  /** Takes a sentence on an interruption that is over. */
  readonly tell: (sentence: string) => void;
  /** Called about ten times a second. */
  readonly onTick: () => void;
}

/** All that goes on beside a take while it runs: the pump, the journal, the screen kept on, the watch for interruptions. */
export class TakeCare {
  readonly interruptions: InterruptionWatch;
  readonly #journal: JournalKeeper;
  readonly #screen = keepScreenOn();
  readonly #stopPump: () => void;

  constructor(parts: TakeCareParts) {
    const { run, nowMs } = parts;
    this.#journal = new JournalKeeper(parts.journal, parts.phraseText, parts.startedAt);
    this.interruptions = new InterruptionWatch({ bar: () => run.bar, tell: parts.tell });
    this.#stopPump = startPump(() => {
      parts.onTick();
      this.#journal.tick(run, nowMs());
      this.interruptions.tick(nowMs());
    });
  }

  /** The take's name in the journal. */
  get journalId(): string {
    return this.#journal.id;
  }

  stop(): void {
    this.#stopPump();
    this.#screen.release();
    this.interruptions.end();
  }

  /** The take is in the log: the journal can let go of it. */
  async endJournal(): Promise<void> {
    await this.#journal.end();
  }
}
