import type { Phrase } from '../phrase/model/phrase';
import { COUNTED_IN } from './place-in-bars';
import { tempoText } from '../phrase/model/beat-word';
import { subdivisionWord } from '../phrase/model/subdivision-word';

export interface Counting {
  /** Partials to the beat. */
  readonly value: number;
  /** Such as "sixteenths at 96 bpm". */
  readonly name: string;
  readonly bpm: number;
}

/** Tempi that somebody may count, the phrase's own aside. Chosen, not measured. */
const LIKELY_BPM = { least: 40, most: 240 };

/** Every way to count the partials of a phrase: the more to a beat, the slower the beats. */
export function countings({ meter, subdivision, tempoBpm }: Phrase): readonly Counting[] {
  return COUNTED_IN.map((parts) => ({
    parts,
    bpm: Math.round(((tempoBpm * subdivision) / parts) * 100) / 100,
  }))
    .filter(
      ({ parts, bpm }) =>
        parts === subdivision || (bpm >= LIKELY_BPM.least && bpm <= LIKELY_BPM.most),
    )
    .map(({ parts, bpm }) => ({
      value: parts,
      name: `${subdivisionWord(meter, parts)} at ${tempoText(bpm, meter)}`,
      bpm,
    }));
}
