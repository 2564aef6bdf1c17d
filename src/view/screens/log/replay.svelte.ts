import { clamp } from '../../../time/whole';

/** A playhead that runs over a take in real time, without sound. */
export class Replay {
  readonly #startUs: number;
  readonly #endUs: number;
  #running = $state(false);
  #originMs = 0;
  #fromUs: number;
  #ending: ReturnType<typeof setTimeout> | undefined;

  constructor(startUs: number, endUs: number) {
    this.#startUs = startUs;
    this.#endUs = endUs;
    this.#fromUs = startUs;
  }

  get running(): boolean {
    return this.#running;
  }

  nowUs(): number {
    if (!this.#running) return this.#fromUs;
    return Math.min(this.#endUs, this.#fromUs + (performance.now() - this.#originMs) * 1000);
  }

  /** Goes on from where it stopped, or from the beginning when it was at the end. */
  start(): void {
    if (this.#fromUs >= this.#endUs) this.#fromUs = this.#startUs;
    this.#originMs = performance.now();
    this.#running = true;
    this.#ending = setTimeout(() => this.stop(), (this.#endUs - this.#fromUs) / 1000);
  }

  /** Stops, and goes on from there the next time. */
  moveTo(us: number): void {
    this.stop();
    this.#fromUs = clamp(us, this.#startUs, this.#endUs);
  }

  stop(): void {
    clearTimeout(this.#ending);
    this.#fromUs = this.nowUs();
    this.#running = false;
  }
}
