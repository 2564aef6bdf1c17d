import { layPhrase } from '../layers/cycle-pattern';
import type { Phrase } from '../model/phrase';

/** Cycles that are compared at most. Chosen, not measured: more than any phrase that is practised needs to repeat. */
const MOST_CYCLES = 64;

/** What a layer (1-based) asks for, as text: the same text, the same notes, whichever layers made them. */
export function soundOf(phrase: Phrase, layer: number = phrase.layers.length): string {
  const laid = layPhrase(phrase, layer);
  const { subdivision, displace, swing } = laid.grid;
  const cycles = Array.from({ length: Math.min(laid.period, MOST_CYCLES) + 1 }, (_, cycle) =>
    laid
      .pattern(cycle)
      .map(({ partial, graceStep, limb, voice, level }) =>
        [partial, graceStep, limb, voice, level].join(' '),
      ),
  );
  return JSON.stringify([phrase.cycle, subdivision, displace, swing?.toFraction(), cycles]);
}
