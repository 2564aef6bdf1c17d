import type { Kit } from '../../kit/kit';
import { CROSSTALK, DOUBLE_TRIGGER } from '../../kit/pad-fault';
import type { Stroke } from '../../kit/stroke';
import { strokesOfTake } from '../../take/strokes-of-take';
import type { RawMessage } from '../../take/take';

/** What came in while somebody played, with what is known of the click. */
export interface PlayedMessages {
  /** From bar 1 beat 1 where there was a click, the rig's offset taken off. */
  readonly messages: readonly RawMessage[];
  /** The kit whose notes they are. */
  readonly kit: Kit;
  /** Tempo of the click; undefined where there was none. */
  readonly clickBpm: number | undefined;
  /** Such as "7/8": of the click, or as chosen. */
  readonly meter: string;
  /** The name of the file it was read from; undefined where somebody played. */
  readonly fileName: string | undefined;
  /** When, ISO 8601. */
  readonly at: string;
}

/** The same, read: strokes without the kit's faults, in time order. */
export interface Played extends PlayedMessages {
  readonly strokes: readonly Stroke[];
  readonly doubleTriggers: number;
  readonly crosstalk: number;
  /** How often each note number came that the kit has no pad for. */
  readonly unmapped: ReadonlyMap<number, number>;
}

/** Reads what came in as takes are read: by the kit's note map, its faults set aside. */
export function readPlayed(played: PlayedMessages): Played {
  const { strokes, setAside, unmapped } = strokesOfTake(played.messages, played.kit);
  const count = (why: number) => setAside.filter((one) => one === why).length;
  return {
    ...played,
    strokes: strokes.filter((_, i) => setAside[i] === 0),
    doubleTriggers: count(DOUBLE_TRIGGER),
    crosstalk: count(CROSSTALK),
    unmapped,
  };
}
