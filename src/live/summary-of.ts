import type { Slip } from '../coach/place/slip';
import { trialLook } from '../coach/trial-look';
import { boundariesOf } from '../kit/boundaries-of';
import type { Plan } from '../match/plan';
import { targetKey } from '../phrase/layers/target-key';
import { dynamicsOf } from '../score/dynamics';
import { figuresOf } from '../score/figures';
import { trialsOf, type LayerTrial } from '../score/trials';
import { isByHand } from '../take/player';
import type { Take } from '../take/take';
import type { TakeSummary, TrialSummary } from '../take/take-summary';
import { openTake } from './open-take';

/** What the log tells of a take; undefined when it cannot be judged. */
export function summaryOf(take: Take, opened = openTake(take)): TakeSummary | undefined {
  if (!opened) return undefined;
  const { plan, judgement, slips } = opened;
  const { layers } = plan.phrase;
  const trials = trialsOf(plan, judgement, take.trials).map((trial, i) =>
    trialSummary(take, plan, trial, i + 1, slips),
  );
  const layer = trials.at(-1)?.layer ?? plan.passages[0]!.layer;
  const figures = figuresOf(judgement.notes);
  const passages = new Map(judgement.notes.map(({ due }) => [due.passage, due.layer]));
  const played = [...passages.values()].filter((one, i, all) => one !== all[i - 1]);
  return {
    startedAt: take.startedAt,
    phraseTitle: plan.phrase.title,
    layer,
    layerName: layers[layer - 1]!.name,
    layersPlayed: played.map((one) => `${one} ${layers[one - 1]!.name}`),
    tempoBpm: plan.tempo.changes.at(-1)!.bpm,
    seconds: Math.max(0, Math.round(take.endUs / 1e6)),
    notes: figures.count,
    asWritten: figures.asWritten,
    offsetMeanMs: figures.meanMs,
    spreadMs: figures.spreadMs,
    contrastDb: dynamicsOf(judgement.notes).overall.contrastDb,
    passed: trials.at(-1)?.passed ?? false,
    ...(take.player === undefined ? {} : { player: take.player }),
    trials,
  };
}

function trialSummary(
  { player, kit, trials: { takenBack = [] } = {} }: Take,
  plan: Plan,
  { layer, bpm, fromBar, toBar, trial, judgement }: LayerTrial,
  number: number,
  slips: readonly Slip[],
): TrialSummary {
  const { notes, asWritten, passed } = trial.gate;
  const { meanMs, spreadMs } = figuresOf(judgement.notes);
  const { phrase } = plan;
  return {
    layer,
    layerName: phrase.layers[layer - 1]!.name,
    target: targetKey(phrase, layer),
    fromBar,
    toBar,
    notes,
    asWritten,
    offsetMeanMs: meanMs,
    spreadMs,
    passed: passed && isByHand(player) && !takenBack.includes(number),
    ...trialLook(plan, { bpm, judgement }, (pad) => boundariesOf(kit, pad), slips),
  };
}
