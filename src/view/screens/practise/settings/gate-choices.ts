import type { Choices } from '../../../../practice/choices';
import { Trial } from '../../../../score/gate';
import { OwnNotes } from '../../../../score/own-notes';

/** What a threshold asks, in words. */
export const THRESHOLD_WORDS: Readonly<Record<Choices['threshold'], string>> = {
  0.75: 'one note in four may be wrong',
  0.85: 'one note in seven may be wrong',
  0.92: 'one note in twelve may be wrong',
  0.97: 'one note in thirty may be wrong',
};

/**
 * How sure it has to be, in words: how many of those whose true share is 5 points short pass in ten minutes at most. Of
 * 2,000 whose faults come in runs of two, at the threshold of THRESHOLDS where most do: 21 %, 3.9 %, 0.5 %.
 */
export const WRONG_PASS_WORDS: Readonly<Record<Choices['wrongPass'], string>> = {
  0.2: 'soon: one in four who is 5 points short passes',
  0.04: 'as usual: one in twenty',
  0.005: 'late: one in a hundred',
};

/** What both together mean. */
export function gateConsequence(options: Pick<Choices, 'threshold' | 'wrongPass'>): string {
  const trial = new Trial(new OwnNotes({ pickup: 0, notes: false }), options);
  return `Without a mistake ${trial.cleanNotesToPass} notes pass.`;
}
