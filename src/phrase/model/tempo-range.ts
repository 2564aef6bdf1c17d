import type { Meter } from '../../time/meter';
import { TEMPO_BPM } from './phrase-file';

/** As many as sixty-fourth triplets at the quickest tempo in quarters: what every phrase could have had before. */
const MOST_PARTIALS_A_MINUTE = 3600;

/**
 * The tempi that a phrase can have, in beats of its meter: what is limited is the tempo that is felt, which in meters
 * that count eighths or sixteenths one by one is that of the quarters, and how many partials come in a minute.
 *
 * @example tempoRange(parseMeter('7/8'), 2) // => { least: 30, most: 600 }
 */
export function tempoRange({ unit, compound }: Meter, subdivision = 1) {
  const toTheQuarter = compound ? 1 : unit / 4;
  const most = Math.min(TEMPO_BPM.most * toTheQuarter, MOST_PARTIALS_A_MINUTE / subdivision);
  return { least: TEMPO_BPM.least, most };
}
