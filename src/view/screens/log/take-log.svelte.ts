import type { StoreProblem } from '../../../store/store-problem';
import type { TakeStore } from '../../../store/take-store';
import type { Guess } from '../../../take/guess';
import type { StoredTakeSummary, TakeSummary } from '../../../take/take-summary';
import type { Take } from '../../../take/take';
import { bad, good, type Result } from '../../../time/result';

const NO_SUCH_TAKE = {
  code: 'NO_SUCH_TAKE',
  message: 'There is no such take in the log on this machine.',
} as const;

/** What the log screen shows of the store, and what it can take back. */
export class TakeLog {
  readonly #store: TakeStore;
  #summaries = $state.raw<readonly StoredTakeSummary[]>([]);
  #problem = $state.raw<StoreProblem>();
  #removed = $state.raw<{ summary: StoredTakeSummary; take: Take }>();
  #persisted = $state<boolean>();
  #added: () => void = () => undefined;
  /** Takes found at the start that were cut short, and are in the log now. */
  recovered = $state(0);

  constructor(store: TakeStore) {
    this.#store = store;
    store.onStoredLater(() => void this.refresh());
  }

  /** Calls back when takes have come since the list was read. */
  onAdded(added: () => void): void {
    this.#added = added;
  }

  /** Newest first. */
  get summaries(): readonly StoredTakeSummary[] {
    return this.#summaries;
  }
  get problem(): StoreProblem | undefined {
    return this.#problem;
  }
  /** The take deleted last, which can be put back. */
  get removed(): StoredTakeSummary | undefined {
    return this.#removed?.summary;
  }
  /** Whether the browser promised to keep the log; undefined before it was asked. */
  get persisted(): boolean | undefined {
    return this.#persisted;
  }

  async refresh(): Promise<void> {
    const { summaries, problem } = await this.#store.list();
    const isMore = summaries.length > this.#summaries.length;
    this.#summaries = summaries;
    if (isMore) this.#added();
    this.#problem = problem;
    // Not waited for: some browsers ask the player, who may take any time, or never answer.
    void this.#store.persisted?.then((answer) => (this.#persisted = answer));
  }

  isOnlyInMemory(id: string): boolean {
    void this.#summaries;
    return this.#store.isOnlyInMemory(id);
  }

  /** A take in full. */
  async open(id: string): Promise<Result<Take, StoreProblem | typeof NO_SUCH_TAKE>> {
    const found = await this.#store.get(id);
    if (!found.ok) return found;
    return found.value ? good(found.value) : bad(NO_SUCH_TAKE);
  }

  /** Puts a take in the place of the one with its id: the gate looks at it in another way. */
  async replace(id: string, take: Take, summary: TakeSummary): Promise<void> {
    const { problem } = await this.#store.add(take, summary, id);
    await this.refresh();
    this.#problem ??= problem;
  }

  /** Keeps with a take what its player said of the time before it was told. */
  async keepGuess(summary: StoredTakeSummary, guess: Guess): Promise<void> {
    const stored = await this.#store.get(summary.id);
    if (!stored.ok) this.#problem = stored.errors[0];
    else if (stored.value) await this.replace(summary.id, { ...stored.value, guess }, summary);
  }

  async remove(summary: StoredTakeSummary): Promise<void> {
    const take = await this.#store.get(summary.id);
    const removed = await this.#store.remove(summary.id);
    if (!removed.ok) {
      this.#problem = removed.errors[0];
      return;
    }
    this.#removed = take.ok && take.value ? { summary, take: take.value } : undefined;
    await this.refresh();
  }

  async putBack(): Promise<void> {
    if (!this.#removed) return;
    const { summary, take } = this.#removed;
    this.#removed = undefined;
    const stored = await this.#store.restore(summary, take);
    await this.refresh();
    if (!stored.ok) this.#problem ??= stored.errors[0];
  }
}
