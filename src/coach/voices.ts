import { surelyAbove, LEAST_EVIDENCE, MIN_TIMES, type Evidence } from './evidence';
import { finding, type Finding } from './finding';

/** Share of a voice's notes struck elsewhere that points at the note map. Chosen, not measured. */
const NEARLY_ALL = 0.9;
/** Share of a voice's notes, or of all notes, from which pairs and extra strokes are told. Chosen, not measured. */
const SOME = 0.05;

/** Voices struck for others again and again, and strokes that answer nothing. */
export const voices = (evidence: Evidence): Finding[] => [...pairs(evidence), ...extras(evidence)];

function pairs({ score }: Evidence): Finding[] {
  return score.wrongVoices.flatMap(({ written, struck, count: times }) => {
    const of = score.byVoice.get(written)!.count;
    const weight = times / score.overall.count;
    if (of >= LEAST_EVIDENCE && times >= NEARLY_ALL * of)
      return [finding('voice mapped', weight, { written, struck, times })];
    return times >= MIN_TIMES && times > SOME * of
      ? [finding('wrong voice', weight, { written, struck, times })]
      : [];
  });
}

function extras({ score }: Evidence): Finding[] {
  const times = score.extras;
  const struck = times + score.overall.answered;
  if (!surelyAbove(SOME / 2, times, struck) || times <= SOME * score.overall.count) return [];
  const most = [...score.extrasByVoice].find(([, count]) => count > times / 2);
  return [finding('extras', times / (times + score.overall.count), { times, mostOn: most?.[0] })];
}
