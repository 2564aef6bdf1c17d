import type { Kit } from '../kit/kit';
import type { RawMessage } from '../kit/raw-message';

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
