import type { Kit } from '../kit/kit';
import { strokesSetAside, type StrokesSetAside } from '../kit/pad-fault';
import type { RawMessage } from '../kit/raw-message';
import { readStrokes } from '../kit/read-strokes';
import type { Stroke } from '../kit/stroke';

/** Something played to be written down as a phrase. */
export interface CaptureTake {
  readonly id: string;
  /** When, ISO 8601. */
  readonly at: string;
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
  /** Whether nobody came to stop it: the page was closed or the browser killed before. */
  readonly isCutShort: boolean;
}

/** A take with its messages decoded. */
export interface DecodedTake extends CaptureTake, StrokesSetAside {
  /** Without the kit's faults, in time order. */
  readonly strokes: readonly Stroke[];
  /** Where bar 1 begins when there was a click: after a count-in that was heard, or where a file begins. */
  readonly bar1At: 'count-in end' | 'file start';
  /** How often each note number came that the kit has no pad for. */
  readonly unmapped: ReadonlyMap<number, number>;
}

/** Decodes a take as takes are judged: by the kit's note map, its faults set aside. */
export function decodeTake(take: CaptureTake): DecodedTake {
  const { strokes, setAside, unmapped } = readStrokes(take.messages, take.kit);
  return {
    ...take,
    strokes: strokes.filter((_, i) => setAside[i] === 0),
    ...strokesSetAside(setAside),
    bar1At: take.fileName === undefined ? 'count-in end' : 'file start',
    unmapped,
  };
}
