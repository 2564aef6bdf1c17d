import type { TimedNote } from '../match/timed-note';
import { wording, type FactsOf, type FindingCode, type Sentence } from './wording';

/** One thing said of a take. */
export type Finding = {
  readonly [Code in FindingCode]: Sentence & {
    readonly code: Code;
    /** What its sentence is filled in with. */
    readonly facts: FactsOf<Code>;
    /** The notes that it is about; none where it is about no notes. */
    readonly notes: readonly TimedNote[];
    /**
     * For ranking only: roughly the share of the notes it touches, 0 to 1; above 1 what is told before all that. Offsets count as the share
     * of the tolerance they use up, halved, since they may be meant.
     */
    readonly weight: number;
  };
}[FindingCode];

export const finding = <Code extends FindingCode>(
  code: Code,
  weight: number,
  notes: readonly TimedNote[],
  facts: FactsOf<Code>,
): Finding => ({ code, facts, weight, notes, ...wording(code, facts) }) as Finding;
