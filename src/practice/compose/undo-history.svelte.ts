/** The states that something had, to go back to and forth again. */
export class UndoHistory<T> {
  readonly #isSame: (a: T, b: T) => boolean;
  #now: T = $state.raw()!;
  #past: readonly T[] = $state.raw([]);
  #future: readonly T[] = $state.raw([]);
  /** What the last step was, as long as another may join it. */
  #joins: string | undefined;

  constructor(first: T, isSame: (a: T, b: T) => boolean) {
    this.#now = first;
    this.#isSame = isSame;
  }

  get now(): T {
    return this.#now;
  }
  get canUndo(): boolean {
    return this.#past.length > 0;
  }
  get canRedo(): boolean {
    return this.#future.length > 0;
  }

  /**
   * Takes a step. Steps in a row that name the same thing they join, such as letters typed into one field, are taken
   * back as one, up to `settle`; where they lead back to their start, there is none.
   */
  step(next: T, joins?: string): void {
    const start = joins === undefined || joins !== this.#joins ? undefined : this.#past.at(-1);
    if (start === undefined) this.#past = [...this.#past, this.#now];
    this.#joins = joins;
    this.#future = [];
    if (start !== undefined && this.#isSame(next, start)) {
      this.#past = this.#past.slice(0, -1);
      this.#joins = undefined;
    }
    this.#now = next;
  }

  /** Another state in place of this one, which is no step. */
  replace(now: T): void {
    this.#joins = undefined;
    this.#now = now;
  }

  /** The next step joins none. */
  settle(): void {
    this.#joins = undefined;
  }

  /** Whether there was anything to take back. */
  undo(): boolean {
    const before = this.#past.at(-1);
    if (before === undefined) return false;
    this.#past = this.#past.slice(0, -1);
    this.#future = [...this.#future, this.#now];
    this.replace(before);
    return true;
  }

  redo(): boolean {
    const after = this.#future.at(-1);
    if (after === undefined) return false;
    this.#future = this.#future.slice(0, -1);
    this.#past = [...this.#past, this.#now];
    this.replace(after);
    return true;
  }
}
