import type { Level } from '../level';
import { limbName, type Limb } from '../limb';
import type { Phrase } from '../phrase';
import type { Voice } from '../voice';
import { withLayer, type Varied } from './varied';

/** A limb's strokes, or only those at one level, moved to a voice, as one more layer. */
export function orchestrate(
  phrase: Phrase,
  limb: Limb,
  voice: Voice,
  level?: Level,
): Varied | undefined {
  const which = level === undefined ? 'strokes' : `${level}s`;
  return withLayer(
    phrase,
    'Orchestrated',
    [{ where: { limb, ...(level && { level }) }, set: { voice } }],
    `The ${which} of the ${limbName(limb)} are on the ${voice}.`,
  );
}
