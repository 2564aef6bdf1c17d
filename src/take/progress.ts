import { targetKey } from '../phrase/layers/target-key';
import type { Phrase } from '../phrase/model/phrase';
import { isByHand } from './player';
import type { TakeSummary, TrialSummary } from './take-summary';

/** How far a person has come with a layer. */
export interface LayerProgress {
  readonly isPlayed: boolean;
  /** The quickest tempo it was passed at; undefined where it was not. */
  readonly bestBpm: number | undefined;
  /** What stood out at each time it was played, the last first. */
  readonly looks: readonly TrialLook[];
}

type TrialLook = Pick<TrialSummary, 'bpm' | 'code' | 'finding'>;

const NONE: LayerProgress = { isPlayed: false, bestBpm: undefined, looks: [] };

/** What the log knows of targets, by their keys, whatever phrase they were played in. */
export type Progress = ReadonlyMap<string, LayerProgress>;

type PlayedTrial = Pick<TrialSummary, 'target' | 'passed'> & TrialLook;

/**
 * Progress from the takes of the log: only what a person played counts.
 *
 * @param takes newest first
 * @example progressOf([{ player: 'kit', trials: [{ target: 'a', bpm: 88, passed: true, finding: '' }] }]).get('a').bestBpm // => 88
 */
export function progressOf(
  takes: readonly (Pick<TakeSummary, 'player'> & { readonly trials?: readonly PlayedTrial[] })[],
): Progress {
  const progress = new Map<string, LayerProgress & { looks: TrialLook[] }>();
  for (const { player, trials = [] } of takes)
    if (isByHand(player))
      for (const { target, bpm, passed, code, finding } of trials.toReversed()) {
        const { bestBpm, looks = [] } = progress.get(target) ?? {};
        looks.push({ bpm, code, finding });
        const best = passed ? Math.max(bpm, bestBpm ?? 0) : bestBpm;
        progress.set(target, { isPlayed: true, bestBpm: best, looks });
      }
  return progress;
}

/** The keys of a phrase's layers, which take time on long ones and never change. */
const keysOf = new WeakMap<Phrase, readonly string[]>();

/** Progress layer by layer, from the first on. */
export function layerProgress(progress: Progress, phrase: Phrase): readonly LayerProgress[] {
  if (progress.size === 0) return phrase.layers.map(() => NONE);
  const keys = keysOf.get(phrase) ?? phrase.layers.map((_, i) => targetKey(phrase, i + 1));
  keysOf.set(phrase, keys);
  return keys.map((key) => progress.get(key) ?? NONE);
}

/**
 * The layer (1-based) to practise next: the first that nobody has passed yet, or the last where all are passed.
 *
 * @example layerToPractise([{ bestBpm: 88 }, { bestBpm: undefined }, { bestBpm: 90 }]) // => 2
 */
export function layerToPractise(layers: readonly Pick<LayerProgress, 'bestBpm'>[]): number {
  const open = layers.findIndex(({ bestBpm }) => bestBpm === undefined);
  return open < 0 ? layers.length : open + 1;
}
