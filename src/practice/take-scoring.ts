import { openTake } from '../live/open-take';
import { dynamicsOf } from '../score/dynamics';
import { figuresOf } from '../score/figures';
import { gate } from '../score/gate';
import type { Take } from '../take/take';
import type { TakeSummary } from '../take/take-summary';

// What figures and log say of a take.
export { finalStats, liveStats } from '../live/live-stats';
export { openTake };

/** What the log tells of a take; undefined when it cannot be judged. */
export function summaryOf(take: Take, opened = openTake(take)): TakeSummary | undefined {
  if (!opened) return undefined;
  const { plan, judgement } = opened;
  const played = judgement.notes.at(-1)?.due.layer ?? plan.passages[0]!.layer;
  const figures = figuresOf(judgement.notes);
  const { layers } = plan.phrase;
  const passages = new Map(judgement.notes.map(({ due }) => [due.passage, due.layer]));
  return {
    startedAt: take.startedAt,
    phraseTitle: plan.phrase.title,
    layer: played,
    layerName: layers[played - 1]!.name,
    layersPlayed: [...passages.values()].map((layer) => `${layer} ${layers[layer - 1]!.name}`),
    tempoBpm: plan.tempo.changes.at(-1)!.bpm,
    seconds: Math.max(0, Math.round(take.endUs / 1e6)),
    notes: figures.count,
    asWritten: figures.asWritten,
    offsetMeanMs: figures.meanMs,
    spreadMs: figures.spreadMs,
    contrastDb: dynamicsOf(judgement.notes).overall.contrastDb,
    passed: gate(judgement).passed,
  };
}
