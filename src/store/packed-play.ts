import type { Kit } from '../kit/kit';
import { parseKit, writeKit } from '../kit/parse-kit';
import type { RawMessage } from '../take/take';
import { packMessages, unpackMessages, type MessageColumns } from './message-columns';

/** Raise it when the fields change; `unpackPlay` reads every version up to it. */
const PACKED_VERSION = 1;

/** Something played to be written down as a phrase. */
export interface Play {
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

/** A play as one record: the raw messages as columns. */
export interface PackedPlay extends Omit<Play, 'messages' | 'kit'>, MessageColumns {
  readonly v: number;
  readonly kitText: string;
  /** What the player said of it; whoever reads it looks whether it holds. */
  readonly said: unknown;
}

/** Copies all of it, so that what is stored holds no proxy and nothing shared. */
export function packPlay(play: Play, said: object): PackedPlay {
  const { id, at, messages, clickBpm, meter, fileName, isCutShort } = play;
  return {
    id,
    v: PACKED_VERSION,
    at,
    kitText: writeKit(play.kit),
    clickBpm,
    meter,
    fileName,
    isCutShort,
    ...packMessages(messages),
    said: structuredClone(said),
  };
}

/** The play that was packed; undefined when this code cannot read it. */
export function unpackPlay(packed: PackedPlay): Play | undefined {
  if (packed.v > PACKED_VERSION) return undefined;
  const kit = parseKit(packed.kitText);
  if (!kit.ok) return undefined;
  const { id, at, clickBpm, meter, fileName, isCutShort } = packed;
  return {
    id,
    at,
    kit: kit.value,
    clickBpm,
    meter,
    fileName,
    isCutShort,
    messages: unpackMessages(packed),
  };
}
