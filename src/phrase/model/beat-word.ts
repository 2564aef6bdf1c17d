import type { Meter } from '../../time/meter';
import { shortText } from '../../words/words';

/**
 * What the tempo counts where it is not quarters, or undefined. Common practice, no source.
 *
 * @example beatWord({ unit: 8, compound: true }) // => 'dotted quarters'
 */
export function beatWord({ unit, compound }: Pick<Meter, 'unit' | 'compound'>): string | undefined {
  if (unit === 4) return undefined;
  if (unit === 8) return compound ? 'dotted quarters' : 'eighths';
  return compound ? 'dotted eighths' : 'sixteenths';
}

/** A tempo with what it counts. @example tempoText(152, { unit: 8, compound: false }) // => '152 bpm in eighths' */
export function tempoText(bpm: number, meter: Pick<Meter, 'unit' | 'compound'>): string {
  const word = beatWord(meter);
  const tempo = `${shortText(bpm, 2)} bpm`;
  return word ? `${tempo} in ${word}` : tempo;
}
