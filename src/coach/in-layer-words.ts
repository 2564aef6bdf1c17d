import type { Plan } from '../match/plan';
import type { Judgement } from '../score/judge';

/**
 * Of which layer findings are, where a take has several; undefined where it has one.
 *
 * @example inLayerWords({ phrase: { layers: [{ name: 'Sticking' }, { name: 'Accents' }] } }, { notes: [{ due: { layer: 1 } }, { due: { layer: 2 } }] }) // => 'In layer 2, Accents, played last:'
 */
export function inLayerWords(
  { phrase }: Pick<Plan, 'phrase'>,
  { notes }: Pick<Judgement, 'notes'>,
): string | undefined {
  const layers = new Set(notes.map(({ due }) => due.layer));
  if (layers.size < 2) return undefined;
  const { layer } = notes.at(-1)!.due;
  return `In layer ${layer}, ${phrase.layers[layer - 1]!.name}, played last:`;
}
