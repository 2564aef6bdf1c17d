import type { Plan } from '../match/plan';
import { layerShape } from '../phrase/layers/layer-shape';
import type { RequiredLevels } from './level-verdict';

/** Which levels each layer of a plan's phrase writes; a layer without either asks for no level. */
export function requiredInPlan({ phrase, passages }: Pick<Plan, 'phrase' | 'passages'>) {
  const asked = new Map<number, RequiredLevels>();
  for (const { layer } of passages) {
    const { hasAccents, hasGhosts } = layerShape(phrase, layer);
    asked.set(layer, { accents: hasAccents, ghosts: hasGhosts });
  }
  return (layer: number): RequiredLevels => asked.get(layer) ?? { accents: false, ghosts: false };
}
