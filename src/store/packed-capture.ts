import type { CaptureTake } from '../capture/capture-take';
import { parseKit, writeKit } from '../kit/parse-kit';
import { packMessages, unpackMessages, type MessageColumns } from './message-columns';

/** Raise it when the fields change; `unpackCapture` reads every version up to it. */
const PACKED_VERSION = 1;

/** A captured take as one record: the raw messages as columns. */
export interface PackedCapture extends Omit<CaptureTake, 'messages' | 'kit'>, MessageColumns {
  readonly v: number;
  /** Grows from one capture to the next, whatever the clock says; absent in older records. */
  readonly order?: number | undefined;
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

/** Of a capture whose date is damaged; also the earliest that a `Date` can be (ECMAScript, Time Values), ms. */
export const LEAST_ORDER = -8.64e15;

/**
 * What captures are put in order by: greater is newer. About the milliseconds since 1970, so that captures of several
 * machines can be compared (a hybrid logical clock: Kulkarni et al., Logical Physical Clocks, OPODIS 2014).
 */
export function captureOrder({ at, order }: Pick<PackedCapture, 'at' | 'order'>): number {
  const atMs = Date.parse(at);
  return order ?? (Number.isNaN(atMs) ? LEAST_ORDER : atMs);
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
