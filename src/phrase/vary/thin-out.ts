import type { LaidLayers } from '../layers/laid-layers';
import { limbName, type Limb } from '../model/limb';
import { withLayer, type Made } from './varied';
import { countOf } from '../model/words';

/**
 * Only `keep` of the cycle's onsets (of one limb's, when it is named) are left, spread as evenly as they go, as
 * Euclid's algorithm spreads them (Toussaint, BRIDGES 2005); the others rest. One more layer.
 */
export function thinOut(laid: LaidLayers, keep: number, limb?: Limb): Made | undefined {
  const positions = new Set<number>();
  for (const note of laid.pattern(1))
    if (note.graceStep === 0 && (limb === undefined || note.limb === limb))
      positions.add(note.position);
  const onsets = [...positions];
  if (!Number.isInteger(keep) || keep < 1 || keep >= onsets.length) return undefined;
  const kept = new Set(
    Array.from({ length: keep }, (_, i) => Math.floor((i * onsets.length) / keep)),
  );
  const rest = onsets.filter((_, i) => !kept.has(i));
  const whose = limb === undefined ? '' : ` of the ${limbName(limb)}`;
  return withLayer(
    laid,
    'Thinned out',
    [{ kind: 'set', where: { ...(limb && { limb }), positions: rest }, set: { silent: true } }],
    `Strokes stay on ${keep} of ${countOf(onsets.length, 'place')}${whose}, spread evenly.`,
  );
}
