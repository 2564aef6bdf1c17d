import { layerStack } from '../layers/layer-stack';
import { limbName } from '../model/limb';
import type { Phrase } from '../model/phrase';
import type { TimelineNote } from '../layers/timeline';
import { groupBy } from '../../time/group-by';
import { watchAtOnce } from './at-once';
import { difficultyOf } from './difficulty';
import { HazardWatch, PLAYABILITY_MESSAGES, type Hazard, type PlayabilityCode } from './hazard';
import { watchHiHatFoot } from './hi-hat-foot';
import { motion, type Motion } from './motion';
import { watchCrossing, watchMoves } from './moves';
import { watchRates } from './rates';

/** Something a body cannot play at the tempo that was asked for. */
export interface PlayabilityProblem {
  readonly code: PlayabilityCode;
  /** The notes in question, each once. */
  readonly notes: readonly TimelineNote[];
  /** The tempo above which some of it cannot be played, beats per minute; 0 when it never can. */
  readonly fromBpm: number;
  /** What, from which tempo on, and what to do. */
  readonly sentence: string;
}

export interface Playability {
  /** One for each code and limb, those that begin at the lowest tempo first. */
  readonly problems: readonly PlayabilityProblem[];
  /** See difficultyOf: 50 speed + 20 travel + 15 together + 15 levels, 100 at every limit. */
  readonly difficulty: number;
  /** The fastest tempo without a problem, beats per minute; 0 when there is none, Infinity when nothing limits it. */
  readonly playableUpToBpm: number;
}

/**
 * Whether a layer (1-based) can be played at a tempo: strokes a second of each limb, moves between voices, crossed
 * hands, limbs and hands wanted twice at once, feet and hands on each other's voices, the hi-hat's foot. Limits are
 * playable themselves.
 *
 * @throws RangeError when the phrase has no such layer.
 * @example playability(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R', layers: [{ name: 'Sticking' }] }).value, 1, 120).problems.map(({ code, fromBpm }) => [code, fromBpm]) // => [['RATE', 105]]
 */
export function playability(phrase: Phrase, layer: number, bpm: number): Playability {
  const moved = motion(layerStack(phrase, layer));
  const { hazards, playableUpToBpm } = watched(moved, bpm);
  return {
    problems: gathered(hazards),
    difficulty: difficultyOf(moved, bpm),
    playableUpToBpm,
  };
}

function watched({ notes, strokesByLimb }: Motion, bpm: number): HazardWatch {
  const watch = new HazardWatch(bpm);
  watchAtOnce(notes, watch);
  for (const strokes of strokesByLimb) watchRates(strokes, watch);
  for (const strokes of strokesByLimb) watchMoves(strokes, watch);
  watchCrossing(notes, watch);
  watchHiHatFoot(notes, watch);
  return watch;
}

/** Whether playability would find no problem, with less work. */
export const isPlayable = (moved: Motion, bpm: number): boolean =>
  watched(moved, bpm).hazards.length === 0;

function gathered(hazards: readonly Hazard[]): readonly PlayabilityProblem[] {
  const groups = groupBy(hazards, ({ code, limb }) => `${code} ${limb}`);
  return [...groups.values()].map(problemOf).sort((a, b) => a.fromBpm - b.fromBpm);
}

function problemOf(group: readonly Hazard[]): PlayabilityProblem {
  const { code, limb } = group[0]!;
  const fromBpm = Math.min(...group.map(({ aboveBpm }) => aboveBpm));
  const notes = [...new Set(group.flatMap((hazard) => hazard.notes))].sort(
    (a, b) => a.beat - b.beat || b.graceStep - a.graceStep,
  );
  const from = fromBpm === 0 ? 'at any tempo' : `above ${Math.floor(fromBpm)} bpm`;
  const sentence = PLAYABILITY_MESSAGES[code]
    .replace('{limb}', limbName(limb))
    .replace('{from}', from);
  return { code, notes, fromBpm, sentence };
}
