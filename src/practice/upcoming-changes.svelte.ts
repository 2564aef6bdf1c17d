import { withUpcoming, type Upcoming } from '../live/upcoming';
import type { Plan } from '../match/plan';

/** What is decided in a take and still to come, in time order. */
export class UpcomingChanges {
  #current: readonly Upcoming[] = $state.raw([]);

  get current(): readonly Upcoming[] {
    return this.#current;
  }

  /** One more is decided. @param plan with it */
  add(change: Upcoming, { tempo, phrase }: Plan): void {
    this.#current = withUpcoming(this.#current, change, tempo, phrase.meter.beatsPerBar);
  }

  /** The playhead is at a time, integer microseconds from bar 1 beat 1. */
  passTo(nowUs: number): void {
    if (this.#current.some(({ atUs }) => nowUs >= atUs))
      this.#current = this.#current.filter(({ atUs }) => nowUs < atUs);
  }

  clear(): void {
    this.#current = [];
  }
}
