import type { CaptureTake } from './capture-take';
import { CROSSTALK, DOUBLE_TRIGGER } from '../kit/pad-fault';
import type { Stroke } from '../kit/stroke';

import { readStrokes } from '../kit/read-strokes';

/** What came in while somebody played, read: strokes without the kit's faults, in time order. */
export interface Played extends CaptureTake {
  readonly strokes: readonly Stroke[];
  readonly doubleTriggers: number;
  readonly crosstalk: number;
  /** How often each note number came that the kit has no pad for. */
  readonly unmapped: ReadonlyMap<number, number>;
}

/** Reads what came in as takes are read: by the kit's note map, its faults set aside. */
export function readPlayed(played: CaptureTake): Played {
  const { strokes, setAside, unmapped } = readStrokes(played.messages, played.kit);
  const count = (why: number) => setAside.filter((one) => one === why).length;
  return {
    ...played,
    strokes: strokes.filter((_, i) => setAside[i] === 0),
    doubleTriggers: count(DOUBLE_TRIGGER),
    crosstalk: count(CROSSTALK),
    unmapped,
  };
}
