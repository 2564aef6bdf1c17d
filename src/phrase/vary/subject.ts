import type { LayerStack } from '../layers/layer-stack';
import { hasNumbers } from '../layers/matches-selector';
import { LEVELS } from '../model/level';
import { LIMBS, type Limb } from '../model/limb';
import type { Phrase } from '../model/phrase';
import { stackTimeline } from '../layers/timeline';
import { VOICES, voiceNumber, type Voice } from '../model/voice';
import { withLayer } from '../check/draft-check';
import { layerDraft, type LayerDraft } from '../model/phrase-draft';
import type { LayeredVariation } from './layered-variation';
import { rewriteLayer } from './rewrite';
import { cuttingAt, doubleLayer, MIRRORING, rotating } from './rewriting-twists';
import { layeredVariation, type Twist } from './vary';

/** A phrase that is twisted in many ways; each way is worked out once. */
export class Subject implements LayeredVariation {
  readonly stack: LayerStack;
  readonly sentence: string;
  /** Whether it has been looked at, for whoever looks. */
  isTried = false;
  #voices: readonly Voice[] | undefined;
  /** The last twist alone. */
  readonly #alone: LayeredVariation;
  /** What it was made from, if by laying one layer on. */
  readonly #below: Subject | undefined;
  readonly #twisted = new Map<number | Phrase, Subject | undefined>();

  constructor(variation: LayeredVariation, from?: Subject) {
    this.stack = variation.stack;
    this.sentence = from?.sentence ? `${from.sentence} ${variation.sentence}` : variation.sentence;
    this.#alone = variation;
    this.#below = from && variation.stack.below === from.stack ? from : undefined;
  }

  /** The voice of each note of the pickup and the first cycle. */
  get voices(): readonly Voice[] {
    this.#voices ??= stackTimeline(this.stack, 0, 1).notes.map(({ voice }) => voice);
    return this.#voices;
  }

  /** Twisted once more, with one sentence more; undefined when the twist does not suit it. */
  twist(twist: Twist): Subject | undefined {
    const key = twistKey(twist);
    const known = this.#twisted.get(key);
    if (known || this.#twisted.has(key)) return known;
    const subject = this.#twist(twist);
    this.#twisted.set(key, subject);
    return subject;
  }

  /** The same for a twist that was not asked for before; what comes of it is not kept. */
  twistAnew(twist: Twist): Subject | undefined {
    const key = twistKey(twist);
    if (this.#twisted.has(key)) return undefined;
    this.#twisted.set(key, undefined);
    return this.#twist(twist);
  }

  #twist(twist: Twist): Subject | undefined {
    const below = this.#below;
    const variation = below
      ? variationAbove(this.stack, twist, (same) => below.#variationBy(same))
      : layeredVariation(this.stack, twist);
    return variation && new Subject(variation, this);
  }

  #variationBy(twist: Twist): LayeredVariation | undefined {
    const subject = this.twist(twist);
    return subject && subject.#alone;
  }
}

/**
 * What `layeredVariation` makes of a phrase with one layer more than another whose twists are known: a twist that rewrites
 * layer by layer need only rewrite the one that was added.
 */
function variationAbove(
  stack: LayerStack,
  twist: Twist,
  twistBelow: (twist: Twist) => LayeredVariation | undefined,
): LayeredVariation | undefined {
  const { layers, cycle } = stack.phrase;
  const top = layers.at(-1)!;
  const layer = top.muted ? undefined : twistedLayer(layerDraft(top), cycle, twist);
  if (!layer) return layeredVariation(stack, twist);
  const below = twistBelow(twist);
  const more = below && withLayer(below.stack, { name: layer.name, changes: layer.changes });
  return more && { stack: more, sentence: below.sentence };
}

/** What becomes of a layer that numbers no strokes; undefined where that takes the whole phrase to know. */
function twistedLayer(layer: LayerDraft, cycle: number, twist: Twist): LayerDraft | undefined {
  if (layer.changes.some((change) => 'where' in change && hasNumbers(change.where)))
    return undefined;
  switch (twist.kind) {
    case 'rotate':
      return rewriteLayer(layer, rotating(cycle, twist.by));
    case 'cycle':
      return rewriteLayer(layer, cuttingAt(twist.cycle));
    case 'mirror':
      return rewriteLayer(layer, MIRRORING);
    case 'double strokes':
      return doubleLayer(layer);
    default:
      return undefined;
  }
}

/** What tells a twist from all others of a phrase: a number, or the phrase that is merged. */
function twistKey(twist: Twist): number | Phrase {
  switch (twist.kind) {
    case 'merge':
      return twist.with;
    case 'rotate':
      return numbered(0, twist.by);
    case 'displace':
      return numbered(1, twist.by);
    case 'subdivision':
      return numbered(2, twist.subdivision);
    case 'cycle':
      return numbered(3, twist.cycle);
    case 'mirror':
      return numbered(4, 0);
    case 'double strokes':
      return numbered(5, 0);
    case 'swap voices': {
      const [one, other] = twist.voices;
      return numbered(6, voiceNumber(one) * VOICES.length + voiceNumber(other));
    }
    case 'thin out':
      return numbered(7, twist.keep * (LIMBS.length + 1) + limbNumber(twist.limb));
    case 'orchestrate': {
      const { limb, voice, level } = twist;
      const levelNumber = level === undefined ? LEVELS.length : LEVELS.indexOf(level);
      const which = limbNumber(limb) * (LEVELS.length + 1) + levelNumber;
      return numbered(8, which * VOICES.length + voiceNumber(voice));
    }
  }
}

const KINDS = 9;
const numbered = (kind: number, which: number): number => which * KINDS + kind;
const limbNumber = (limb: Limb | undefined): number =>
  limb === undefined ? LIMBS.length : LIMBS.indexOf(limb);
