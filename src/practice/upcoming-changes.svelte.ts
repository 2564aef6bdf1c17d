import type { Upcoming } from '../live/upcoming';
import type { TakeRun } from './takes/take-run';

/** What is decided for the take that is played and still to come. */
export class UpcomingChanges {
  #current: readonly Upcoming[] = $state.raw([]);

  /** In time order. */
  get current(): readonly Upcoming[] {
    return this.#current;
  }

  announce(run: TakeRun, ...changes: readonly Upcoming[]): void {
    this.#current = run.upcomingWith(this.#current, changes);
  }

  /** What begins by a time, integer microseconds from bar 1 beat 1, is to come no longer. */
  pass(nowUs: number): void {
    if (this.#current.some(({ atUs }) => nowUs >= atUs))
      this.#current = this.#current.filter(({ atUs }) => nowUs < atUs);
  }

  clear(): void {
    this.#current = [];
  }
}
