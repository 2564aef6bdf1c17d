import { figuresOf } from '../score/figures';
import { dynamicsOf } from '../score/dynamics';
import { gate } from '../score/gate';
import type { TakeSummary } from '../take/take-summary';
import type { Take } from '../take/take';
import type { LiveTake } from '../live/live-take';
import { openTake } from '../live/open-take';

/**
 * What is kept of a take: the kit's own words, from message `from` on, and all that decides what was
 * due.
 */
export function finishedTake(
  take: LiveTake,
  phraseText: string,
  startedAt: string,
  endUs: number,
  from = 0,
): Take {
  const { plan, countInBars } = take.timeline;
  return {
    startedAt,
    phraseText,
    passages: plan.passages,
    tempos: plan.tempo.changes,
    countInBars,
    endUs,
    kit: take.kit,
    deviceOffsetMs: take.deviceOffsetMs,
    toleranceMs: plan.windows.toleranceMs,
    reachMs: plan.windows.reachMs,
    messages: take.log.toMessages(from),
  };
}

/** What the log tells of a take; undefined when its phrase cannot be read. */
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
