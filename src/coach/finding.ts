import { wording, type FactsOf, type FindingCode, type Sentence } from './wording';

/** One thing worth acting on. */
export interface Finding extends Sentence {
  readonly code: FindingCode;
  /**
   * For ranking only: roughly the share of the notes it touches, 0 to 1. Offsets count as the share
   * of the tolerance they use up, halved, since they may be meant.
   */
  readonly weight: number;
}

export const finding = <Code extends FindingCode>(
  code: Code,
  weight: number,
  facts: FactsOf<Code>,
): Finding => ({ code, weight, ...wording(code, facts) });
