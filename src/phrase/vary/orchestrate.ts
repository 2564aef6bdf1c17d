import type { LaidLayers } from '../layers/laid-layers';
import type { Level } from '../model/level';
import { limbName, type Limb } from '../model/limb';
import type { Voice } from '../model/voice';
import { withLayer, type Made } from './varied';

/** A limb's strokes, or only those at one level, moved to a voice, as one more layer. */
export function orchestrate(
  laid: LaidLayers,
  limb: Limb,
  voice: Voice,
  level?: Level,
): Made | undefined {
  const which = level === undefined ? 'strokes' : `${level}s`;
  return withLayer(
    laid,
    'Orchestrated',
    [{ kind: 'set', where: { limb, ...(level && { level }) }, set: { voice } }],
    `The ${which} of the ${limbName(limb)} are on the ${voice}.`,
  );
}
