import type { Plan } from '../match/plan';
import { layerShape } from '../phrase/layers/layer-shape';
import type { RequiredLevels } from './level-verdict';

const NONE: RequiredLevels = { accents: false, ghosts: false };

/**
 * Which levels each layer of a plan's passages writes: a layer whose notes have an accent asks for
 * accents. A layer that the plan does not play asks for none.
 *
 * @example requiredLevels({ phrase: checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L', layers: [{ name: 'Accents', changes: [{ where: { limb: 'R' }, set: { level: 'accent' } }] }] }).value, passages: [{ fromBar: 1, layer: 1 }] })(1) // => { accents: true, ghosts: false }
 */
export function requiredLevels({
  phrase,
  passages,
}: Pick<Plan, 'phrase' | 'passages'>): (layer: number) => RequiredLevels {
  const asked = new Map<number, RequiredLevels>();
  for (const { layer } of passages) {
    const { hasAccents, hasGhosts } = layerShape(phrase, layer);
    asked.set(layer, { accents: hasAccents, ghosts: hasGhosts });
  }
  return (layer) => asked.get(layer) ?? NONE;
}
