import {
  playedGrouping,
  type GroupingError,
  type HandsOn,
  type PlayedGrouping,
} from '../../capture/played-grouping';
import { startPump } from '../../clock/pump';
import { createKitReader, STROKE } from '../../kit/kit-reader';
import { readStrokes } from '../../kit/read-strokes';
import type { Stroke } from '../../kit/stroke';
import type { Result } from '../../time/result';
import type { Inputs } from '../inputs.svelte';
import { MessageLog } from '../../live/message-log';

export interface GroupingRunParts {
  readonly inputs: Pick<Inputs, 'overhear' | 'playedKit'>;
  readonly nowMs?: () => number;
  readonly pump?: typeof startPump;
}

/** Who rests so long has played the grouping. Chosen, not measured: longer than a rest within one. */
const REST_MS = 2500;

/** Hears a grouping played once, and keeps it until the next, so that its hands can be told otherwise. */
export class GroupingRun {
  readonly #parts: GroupingRunParts;
  readonly #nowMs: () => number;
  #isListening = $state(false);
  #count = $state(0);
  #strokes: readonly Stroke[] | undefined = $state.raw();
  #handsOn: HandsOn | undefined = $state.raw();
  readonly #found = $derived(this.#strokes && playedGrouping(this.#strokes, this.#handsOn));
  #end: (() => void) | undefined;

  constructor(parts: GroupingRunParts) {
    this.#parts = parts;
    this.#nowMs = parts.nowMs ?? (() => performance.now());
  }

  get isListening(): boolean {
    return this.#isListening;
  }
  /** Strokes so far, read about ten times a second. */
  get count(): number {
    return this.#count;
  }
  /** The drums of the hands; undefined where they are to be guessed. */
  get handsOn(): HandsOn | undefined {
    return this.#handsOn;
  }
  /** What was played last; undefined before anything was. */
  get found(): Result<PlayedGrouping, GroupingError> | undefined {
    return this.#found;
  }

  tellHands(handsOn: HandsOn | undefined): void {
    this.#handsOn = handsOn;
  }

  listen(): void {
    this.#end?.();
    const { inputs, pump = startPump } = this.#parts;
    const kit = inputs.playedKit;
    const reader = createKitReader(kit);
    const log = new MessageLog();
    let count = 0;
    let lastMs = Infinity;
    const letGo = inputs.overhear((timeMs, status, data1, data2) => {
      log.add(Math.round(timeMs * 1000), status, data1, data2);
      if (reader.read(status, data1, data2) !== STROKE) return;
      count++;
      lastMs = timeMs;
    });
    const stopPump = pump(() => {
      log.makeRoom();
      this.#count = count;
      if (this.#nowMs() - lastMs > REST_MS) this.stop();
    });
    this.#count = 0;
    this.#isListening = true;
    this.#end = () => {
      letGo();
      stopPump();
      const read = readStrokes(log.toMessages(), kit);
      this.#strokes = read.strokes.filter((_, i) => read.setAside[i] === 0);
      this.#count = count;
    };
  }

  /** Leaves off listening; what was played so far counts. */
  stop(): void {
    this.#end?.();
    this.#end = undefined;
    this.#isListening = false;
  }
}
