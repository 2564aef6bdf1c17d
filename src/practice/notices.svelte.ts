/** How long a notice stands. Chosen, not measured: to be seen at the next look up from the kit. */
const STANDS_MS = 20_000;

/** Short sentences on what has just happened, each of which goes by itself. */
export class Notices {
  #current: readonly string[] = $state.raw([]);

  get current(): readonly string[] {
    return this.#current;
  }

  tell(sentence: string): void {
    this.#current = [...this.#current.filter((told) => told !== sentence), sentence];
    setTimeout(() => {
      this.#current = this.#current.filter((told) => told !== sentence);
    }, STANDS_MS);
  }

  clear(): void {
    this.#current = [];
  }
}
