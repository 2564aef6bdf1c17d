import { wrongVoices } from '../../score/groups';
import type { Evidence } from '../evidence/evidence';
import { finding, type Finding } from '../finding';
import { LEAST_EVIDENCE, MIN_TIMES, whereOf } from './where';

/** Share of a voice's notes struck elsewhere that points at the note map. Chosen, not measured. */
const NEARLY_ALL = 0.9;
/** Share of a voice's notes from which a pair is told. Chosen, not measured. */
const SOME = 0.05;

/** Voices struck for others again and again. */
export function struckElsewhere(evidence: Evidence): Finding[] {
  const { notes } = evidence.judgement;
  return wrongVoices(notes).flatMap(({ written, struck, count }): Finding[] => {
    const could = [...notes.keys()].filter((at) => notes[at]!.due.note.voice === written);
    const isStruck = (at: number) =>
      notes[at]!.verdict === 'wrong voice' && notes[at]!.stroke!.voice === struck;
    const dues = could.filter(isStruck).map((at) => notes[at]!.due);
    const weight = count / notes.length;
    if (could.length >= LEAST_EVIDENCE && count >= NEARLY_ALL * could.length)
      return [finding('voice mapped', weight, dues, { written, struck })];
    if (count < MIN_TIMES || count <= SOME * could.length) return [];
    const [place] = whereOf(evidence, could, isStruck, 1);
    return [
      finding('wrong voice', weight, dues, {
        written,
        struck,
        times: count,
        name: place?.cause?.name,
      }),
    ];
  });
}
