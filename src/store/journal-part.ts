import type { PackedTake } from './packed-take';

/** What was added to a take since the part before: the plan as it then was, and the new messages. */
export interface JournalPart {
  readonly takeId: string;
  /** From 0. */
  readonly part: number;
  readonly packed: PackedTake;
}
