import type { CaptureTake } from '../capture/capture-take';
import { parseKit, writeKit } from '../kit/parse-kit';
import { packMessages, unpackMessages, type MessageColumns } from './message-columns';

/** Raise it when the fields change; `unpackCapture` reads every version up to it. */
const PACKED_VERSION = 1;

/** A captured take as one record: the raw messages as columns. */
export interface PackedCapture extends Omit<CaptureTake, 'messages' | 'kit'>, MessageColumns {
  readonly v: number;
  readonly kitText: string;
  /** The player's corrections; the name is that of records which are on disks. */
  readonly said: unknown;
}

/** Copies all of it, so that what is stored holds no proxy and nothing shared. */
export function packCapture(take: CaptureTake, corrections: object): PackedCapture {
  const { id, at, messages, clickBpm, meter, fileName, isCutShort } = take;
  return {
    id,
    v: PACKED_VERSION,
    at,
    kitText: writeKit(take.kit),
    clickBpm,
    meter,
    fileName,
    isCutShort,
    ...packMessages(messages),
    said: structuredClone(corrections),
  };
}

/** The take that was packed; undefined when this code cannot read it. */
export function unpackCapture(packed: PackedCapture): CaptureTake | undefined {
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
