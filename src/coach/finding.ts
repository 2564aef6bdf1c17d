import type { TimedNote } from '../match/timed-note';
import { wording, type FactsOf, type FindingCode, type Sentence } from './wording';

/** One thing said of a take, with what its sentence is filled in with. */
export type Finding = {
  readonly [Code in FindingCode]: FindingOf & {
    readonly code: Code;
    readonly facts: FactsOf<Code>;
  };
}[FindingCode];

interface FindingOf extends Sentence {
  /** The notes that it is about; none where it is about no notes. */
  readonly notes: readonly TimedNote[];
  /**
   * For ranking only: roughly the share of the notes it touches, 0 to 1. Offsets count as the share
   * of the tolerance they use up, halved, since they may be meant.
   */
  readonly weight: number;
}

export const finding = <Code extends FindingCode>(
  code: Code,
  weight: number,
  notes: readonly TimedNote[],
  facts: FactsOf<Code>,
): Finding => ({ code, facts, weight, notes, ...wording(code, facts) }) as Finding;
