import { gridAt } from '../model/grid';
import type { Phrase } from '../model/phrase';
import { MAX_CYCLE, MAX_LAYERS, MAX_SUBDIVISION, TEMPO_BPM } from '../model/phrase-file';
import { playability } from '../playability/playability';
import { vary, type Twist } from './vary';
import { lcm } from '../../time/whole';
import { twistFacts } from './twist-facts';
import { plural } from '../../words/words';

/** Why a variation is not offered. */
export interface Refusal {
  /** Sentences: what is in the way, and what would help. */
  readonly reasons: readonly string[];
  /** The fastest whole tempo at which it could be played, where slowing down is all that is needed. */
  readonly slowTo?: number;
}

/** Why a twist makes no phrase of this one. */
export function whyNoPhrase(phrase: Phrase, twist: Twist): string {
  const { subdivision, onsets } = twistFacts(phrase);
  const rewrites =
    twist.kind === 'rotate' || twist.kind === 'cycle' || twist.kind === 'double strokes';
  if (!rewrites && twist.kind !== 'mirror' && phrase.layers.length >= MAX_LAYERS)
    return `This twist is one more layer, and the phrase has ${MAX_LAYERS} already; take a layer away first.`;
  if (twist.kind === 'subdivision' && twist.subdivision === subdivision)
    return `Each beat has ${subdivision} partials already; choose another number.`;
  if (twist.kind === 'thin out') {
    const all = onsets(twist.limb);
    if (twist.keep >= all)
      return all === 1
        ? 'There is only one stroke in the cycle, so none can be left out; thin out another limb, or take another change.'
        : `There are only ${all} to keep some of; keep fewer, or thin out another limb.`;
  }
  if (twist.kind === 'double strokes') {
    if (2 * Math.max(subdivision, phrase.subdivision) > MAX_SUBDIVISION)
      return `Twice ${Math.max(subdivision, phrase.subdivision)} partials to the beat are more than the ${MAX_SUBDIVISION} there can be; choose a coarser subdivision first.`;
    if (2 * phrase.cycle > MAX_CYCLE)
      return `Twice ${phrase.cycle} partials are more than the ${MAX_CYCLE} a cycle can have; choose a shorter cycle first.`;
  }
  if (twist.kind === 'merge') return whyNoMerge(phrase, twist.with);
  if (twist.kind === 'swap voices' || twist.kind === 'orchestrate')
    return 'No stroke is left for this to change; choose another voice, limb or level.';
  const at = firstInTheWay(phrase, twist);
  return `Layer ${at + 1}, "${phrase.layers[at]!.name}", would find no note to change any more, or would ask one limb for two strokes at once; choose another setting, or take that layer out in the composer first.`;
}

/** The index of the first layer with which a twist that suits no whole phrase fails. */
function firstInTheWay(phrase: Phrase, twist: Twist): number {
  const suits = (count: number) =>
    vary({ ...phrase, layers: phrase.layers.slice(0, count) }, twist) !== undefined;
  const at = phrase.layers.findIndex((_, i) => !suits(i + 1));
  return Math.max(0, at);
}

function whyNoMerge(phrase: Phrase, other: Phrase): string {
  const mine = gridAt(phrase, phrase.layers.length).subdivision;
  const theirs = gridAt(other, other.layers.length).subdivision;
  if (phrase.meterText !== other.meterText)
    return `"${other.title}" is in ${other.meterText} and this phrase in ${phrase.meterText}; choose a phrase of the same meter.`;
  if (mine !== theirs)
    return `"${other.title}" has ${theirs} partials to the beat and this phrase ${mine}; change the subdivision first, or choose another phrase.`;
  const cycle = lcm(phrase.cycle, other.cycle);
  if (cycle > MAX_CYCLE)
    return `Cycles of ${phrase.cycle} and ${other.cycle} meet again after ${cycle} partials, and a cycle can have ${MAX_CYCLE}; change one of the cycles first.`;
  return `No stroke of "${other.title}" finds its limb free; thin this phrase out first, or choose another one.`;
}

/** Why a varied phrase cannot be played at a tempo, layer by layer; undefined when it can. */
export function whyUnplayable(phrase: Phrase, bpm: number): Refusal | undefined {
  const layersBy = new Map<string, number[]>();
  let upTo = Infinity;
  phrase.layers.forEach((_, i) => {
    const { problems, playableUpToBpm } = playability(phrase, i + 1, bpm);
    upTo = Math.min(upTo, playableUpToBpm);
    for (const { sentence } of problems)
      layersBy.set(sentence, [...(layersBy.get(sentence) ?? []), i + 1]);
  });
  if (layersBy.size === 0) return undefined;
  const all = phrase.layers.length;
  const reasons = [...layersBy].map(([sentence, layers]) =>
    layers.includes(all) ? sentence : `${layersText(layers)}: ${sentence}`,
  );
  const slowTo = Math.floor(upTo);
  if (slowTo >= TEMPO_BPM.least) return { reasons, slowTo };
  const never =
    upTo > 0
      ? `It could be played below ${TEMPO_BPM.least} bpm only, slower than a phrase can be.`
      : 'No tempo makes it playable; choose another setting.';
  return { reasons: [...reasons, never] };
}

const layersText = (layers: readonly number[]): string =>
  `In ${plural(layers.length, 'layer')} ${layers.join(', ')}`;

/** The fastest tempo at which every layer can be played; Infinity when nothing limits it. */
export const playableUpTo = (phrase: Phrase): number =>
  Math.min(
    ...phrase.layers.map((_, i) => playability(phrase, i + 1, TEMPO_BPM.least).playableUpToBpm),
  );
