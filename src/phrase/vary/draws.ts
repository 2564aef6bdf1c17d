/** Draws from what there is, by numbers from 0 up to but not including 1. */
export class Draws {
  readonly share: () => number;

  constructor(share: () => number) {
    this.share = share;
  }

  /** A whole number, both ends included. */
  whole(from: number, to: number): number {
    return from + Math.floor(this.share() * (to - from + 1));
  }

  one<T>(list: readonly T[]): T {
    return list[this.whole(0, list.length - 1)]!;
  }
}
