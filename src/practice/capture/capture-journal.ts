import type { CaptureTake } from '../../capture/capture-take';
import type { CaptureRun } from './capture-run';
import type { CaptureHistory } from './capture-history.svelte';

/** How often it is written down, ms: a killed browser loses no more than this and the writing. Chosen. */
const EVERY_MS = 400;

/** Writes down what is played while it is played. The pump calls `tick`; nothing happens at a stroke. */
export class CaptureJournal {
  readonly #kept: Pick<CaptureHistory, 'writeSoFar'>;
  #written = 0;
  #lastMs = -Infinity;
  #isWriting = false;

  constructor(kept: Pick<CaptureHistory, 'writeSoFar'>) {
    this.#kept = kept;
  }

  tick(run: CaptureRun, soFar: () => CaptureTake, nowMs: number): void {
    const arrived = run.strokes + run.unmapped;
    if (arrived === this.#written || this.#isWriting || nowMs - this.#lastMs < EVERY_MS) return;
    this.#written = arrived;
    this.#lastMs = nowMs;
    this.#isWriting = true;
    void this.#kept.writeSoFar(soFar()).finally(() => (this.#isWriting = false));
  }
}
