import type { Phrase } from '../phrase/model/phrase';
import { TEMPO_BPM } from '../phrase/model/phrase-file';
import { tempoRange } from '../phrase/model/tempo-range';
import { clamp } from '../time/whole';

/** The nearest whole tempo that can be practised at. */
export function practicable(bpm: number, phrase: Phrase | undefined): number {
  const { least, most } = phrase ? tempoRange(phrase.meter, phrase.subdivision) : TEMPO_BPM;
  return clamp(Math.round(bpm), least, most);
}
