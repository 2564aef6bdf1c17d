import { withUpcoming, type Upcoming } from '../live/upcoming';
import type { TakeRun } from './take-run';

/** What is decided for the take that is played and still to come. */
export class UpcomingChanges {
  #current: readonly Upcoming[] = $state.raw([]);

  /** In time order. */
  get current(): readonly Upcoming[] {
    return this.#current;
  }

  announce(run: TakeRun, change: Upcoming): void {
    const { tempo, phrase } = run.take.timeline.plan;
    this.#current = withUpcoming(this.#current, change, tempo, phrase.meter.beatsPerBar);
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
