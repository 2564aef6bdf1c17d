import {
  playedGrouping,
  type GroupingError,
  type HandsOn,
  type PlayedGrouping,
} from '../../capture/played-grouping';
import { STROKE } from '../../kit/kit-reader';
import { readStrokes } from '../../kit/read-strokes';
import type { Stroke } from '../../kit/stroke';
import type { Result } from '../../time/result';
import type { Inputs } from '../inputs/inputs.svelte';
import { MessageLog } from '../../live/message-log';
import { Transport, type TransportDependencies } from '../transport';

export interface GroupingRunDependencies extends TransportDependencies {
  readonly inputs: Pick<Inputs, 'tap' | 'follow' | 'playedKit'>;
}

/** Who rests so long has played the grouping. Chosen, not measured: longer than a rest within one. */
export const GROUPING_REST_US = 2_500_000;

/** Hears a grouping played once, and keeps it until the next, so that its hands can be told otherwise. */
export class GroupingRun {
  readonly #dependencies: GroupingRunDependencies;
  #isListening = $state(false);
  #count = $state(0);
  #strokes: readonly Stroke[] | undefined = $state.raw();
  #handsOn: HandsOn | undefined = $state.raw();
  readonly #found = $derived(this.#strokes && playedGrouping(this.#strokes, this.#handsOn));
  #end: (() => void) | undefined;

  constructor(dependencies: GroupingRunDependencies) {
    this.#dependencies = dependencies;
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
    const kit = this.#dependencies.inputs.playedKit;
    const log = new MessageLog();
    let count = 0;
    let lastUs = Infinity;
    const transport: Transport = new Transport(this.#dependencies, {
      leadInMs: 0,
      onMessage: (stampUs, { kind, status, data1, data2 }) => {
        log.add(stampUs, status, data1, data2);
        if (kind !== STROKE) return;
        count++;
        lastUs = stampUs;
      },
      onTick: () => {
        log.makeRoom();
        this.#count = count;
        if (transport.nowUs() - lastUs > GROUPING_REST_US) this.stop();
      },
    });
    this.#isListening = true;
    this.#end = () => {
      transport.stop();
      const read = readStrokes(log.toMessages(), kit);
      this.#strokes = read.strokes.filter((_, i) => read.setAside[i] === 0);
      this.#count = count;
    };
    transport.start();
  }

  /** Leaves off listening; what was played so far counts. */
  stop(): void {
    this.#end?.();
    this.#end = undefined;
    this.#isListening = false;
  }
}
