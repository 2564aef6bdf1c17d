import type { Excerpt } from '../../../../phrase/exercise/excerpt-words';

/** The stretch of the layer that is being marked, on the lane or by its ends. */
export class Marking {
  /** Whether a drag over the lane marks. */
  isOn = $state(false);
  excerpt = $state.raw<Excerpt>();

  /** Two partials from bar 1 beat 1, whichever comes first. */
  mark(one: number, other: number): void {
    const [from, to] = one <= other ? [one, other] : [other, one];
    if (this.excerpt?.from !== from || this.excerpt.to !== to) this.excerpt = { from, to };
  }

  end(): void {
    this.isOn = false;
    this.excerpt = undefined;
  }
}
