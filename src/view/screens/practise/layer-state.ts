import type { TakeSummary } from '../../../take/take-summary';

export type LayerState = 'passed' | 'now' | 'played' | 'not yet played';

/** Layers of a phrase, 1-based, by what the log knows of them. */
export interface LayersBefore {
  readonly played: ReadonlySet<number>;
  readonly passed: ReadonlySet<number>;
}

/** What earlier takes of a phrase say of its layers. */
export function layersBefore(
  summaries: readonly Pick<TakeSummary, 'phraseTitle' | 'layer' | 'passed'>[],
  phraseTitle: string | undefined,
): LayersBefore {
  const takes = summaries.filter((summary) => summary.phraseTitle === phraseTitle);
  return {
    played: new Set(takes.map(({ layer }) => layer)),
    passed: new Set(takes.filter(({ passed }) => passed).map(({ layer }) => layer)),
  };
}

/** How far a layer has come; what is played now is told before what has been. */
export function layerState(
  layer: number,
  now: number | undefined,
  { played, passed }: LayersBefore,
): LayerState {
  if (layer === now) return 'now';
  if (passed.has(layer)) return 'passed';
  return played.has(layer) ? 'played' : 'not yet played';
}
