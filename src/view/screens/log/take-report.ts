import { findings } from '../../../coach/findings';
import { boundariesOf } from '../../../kit/boundaries-of';
import { limbName } from '../../../phrase/limb';
import type { OpenedTake } from '../../../practice/open-take';
import type { Figures } from '../../../score/figures';
import { scoreTake, type TakeScore } from '../../../score/score-take';
import type { Take } from '../../../take/take';

export interface FigureRow {
  readonly name: string;
  readonly figures: Figures;
}

export interface FigureGroup {
  readonly caption: string;
  readonly heading: string;
  readonly rows: readonly FigureRow[];
}

export interface TakeReport {
  readonly score: TakeScore;
  readonly findings: readonly { readonly text: string; readonly advice: string }[];
  readonly groups: readonly FigureGroup[];
}

/** All that is told of an opened take. */
export function takeReport(take: Take, { plan, judgement }: OpenedTake): TakeReport {
  const score = scoreTake(judgement);
  const layerName = (layer: number) => `${layer} ${plan.phrase.layers[layer - 1]?.name ?? ''}`;
  return {
    score,
    findings: findings(judgement, (pad) => boundariesOf(take.kit, pad)),
    groups: [
      { caption: 'All', heading: '', rows: [{ name: 'all notes', figures: score.overall }] },
      group('Layers', 'layer', score.byLayer, layerName),
      group('Voices', 'voice', score.byVoice, String),
      group('Limbs', 'limb', score.byLimb, limbName),
      group('Levels', 'level', score.byLevel, String),
      group('Positions of the cycle', 'position', score.byPosition, (position) =>
        position > 0 ? String(position) : `pickup ${String(position).replace('-', '−')}`,
      ),
    ],
  };
}

const group = <Key>(
  caption: string,
  heading: string,
  figures: ReadonlyMap<Key, Figures>,
  nameOf: (key: Key) => string,
): FigureGroup => ({
  caption,
  heading,
  rows: [...figures].map(([key, of]) => ({ name: nameOf(key), figures: of })),
});
