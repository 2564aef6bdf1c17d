import type { Meter } from '../../time/meter';
import { clamp } from '../../time/whole';
import { tempoRange } from '../model/tempo-range';
import { remarkOnAll, type FileRemark } from './file-remark';

/** The tempo of written music in beats a minute, or the nearest that a phrase may have, and then what is to be said of it. */
export function possibleTempo(
  tempoBpm: number,
  meter: Meter,
  subdivision: number,
): { readonly tempoBpm: number; readonly remarks: readonly FileRemark[] } {
  const { least, most } = tempoRange(meter, subdivision);
  const within = clamp(tempoBpm, least, most);
  if (within === tempoBpm) return { tempoBpm, remarks: [] };
  const sentence = `The tempo of ${tempoBpm} is beyond ${least} to ${most}; ${within} beats a minute are taken.`;
  return { tempoBpm: within, remarks: [remarkOnAll(sentence)] };
}
