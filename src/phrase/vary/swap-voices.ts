import type { LaidLayers } from '../layers/laid-layers';
import { MOST_CYCLES } from '../layers/timeline';
import { VOICES, type Voice } from '../model/voice';
import type { PlainChange } from './checked-layer';
import { withLayer, type Made } from './varied';

/** Two voices exchanged wherever either is played, as one more layer. */
export function swapVoices(laid: LaidLayers, one: Voice, other: Voice): Made | undefined {
  const used = usedVoices(laid);
  const aside = VOICES.find((voice) => !used.has(voice) && voice !== one && voice !== other);
  if (aside === undefined) return undefined;
  const revoice = (from: Voice, to: Voice): PlainChange => ({
    kind: 'set',
    where: { voice: from },
    set: { voice: to },
  });
  if (used.has(one) && used.has(other))
    return withLayer(
      laid,
      'Voices swapped',
      [revoice(one, aside), revoice(other, one), revoice(aside, other)],
      `What was on the ${one} is on the ${other}, and the other way round.`,
    );
  const [from, to] = used.has(one) ? [one, other] : [other, one];
  return withLayer(
    laid,
    'Voices swapped',
    [revoice(from, to)],
    `What was on the ${from} is on the ${to}.`,
  );
}

/** The voices of main notes in the cycles until they repeat, at most 16, and in the pickup. */
function usedVoices(laid: LaidLayers): ReadonlySet<Voice> {
  const used = new Set<Voice>();
  for (let cycle = 0; cycle <= Math.min(laid.period, MOST_CYCLES); cycle++)
    for (const { graceStep, voice } of laid.pattern(cycle)) if (graceStep === 0) used.add(voice);
  return used;
}
