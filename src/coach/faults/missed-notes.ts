import type { Evidence } from '../evidence/evidence';
import { finding, type Finding } from '../finding';
import { whereOf } from './where';

/** Share of missed notes from which the whole is told. Chosen, not measured. */
const MANY = 0.1;

/** Where notes go missing. */
export function missedNotes(evidence: Evidence): Finding[] {
  const { notes } = evidence.judgement;
  const isMissed = (at: number) => notes[at]!.verdict === 'missed';
  return whereOf(evidence, [...notes.keys()], isMissed, MANY).map(
    ({ cause, times, of, notes: at }) =>
      finding(
        'missed',
        times / notes.length,
        at.map((one) => notes[one]!.due),
        {
          name: cause?.name,
          times,
          of,
        },
      ),
  );
}
