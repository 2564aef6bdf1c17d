import { layerStack, type LayerStack } from '../layers/layer-stack';
import type { Level } from '../model/level';
import type { Limb } from '../model/limb';
import type { Phrase } from '../model/phrase';
import type { Voice } from '../model/voice';
import type { LayeredVariation, VariedPhrase } from './layered-variation';
import { changeSubdivision, displace, orchestrate, swapVoices, thinOut } from './layer-twists';
import { merge } from './merge';
import { changeCycle, doubleStrokes, mirror, rotate } from './rewriting-twists';

/** One way to vary a phrase, as data. */
export type Twist =
  | { readonly kind: 'rotate' | 'displace'; readonly by: number }
  | { readonly kind: 'subdivision'; readonly subdivision: number }
  | { readonly kind: 'cycle'; readonly cycle: number }
  | { readonly kind: 'swap voices'; readonly voices: readonly [Voice, Voice] }
  | { readonly kind: 'mirror' | 'double strokes' }
  | { readonly kind: 'thin out'; readonly keep: number; readonly limb?: Limb }
  | {
      readonly kind: 'orchestrate';
      readonly limb: Limb;
      readonly voice: Voice;
      readonly level?: Level;
    }
  | { readonly kind: 'merge'; readonly with: Phrase };

/**
 * A phrase varied, with what changed in one sentence; undefined when the twist does not suit it. Whether it can be
 * played is for offer to say.
 *
 * @example vary(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, { kind: 'rotate', by: 1 }).phrase.groupingText // => 'L K R'
 */
export function vary(phrase: Phrase, twist: Twist): VariedPhrase | undefined {
  const variation = layeredVariation(layerStack(phrase), twist);
  return variation && { phrase: variation.stack.phrase, sentence: variation.sentence };
}

/** The same with the layers laid on. */
export function layeredVariation(stack: LayerStack, twist: Twist): LayeredVariation | undefined {
  const { phrase } = stack;
  switch (twist.kind) {
    case 'rotate':
      return rotate(phrase, twist.by);
    case 'displace':
      return displace(stack, twist.by);
    case 'subdivision':
      return changeSubdivision(stack, twist.subdivision);
    case 'cycle':
      return changeCycle(phrase, twist.cycle);
    case 'swap voices':
      return swapVoices(stack, ...twist.voices);
    case 'mirror':
      return mirror(phrase);
    case 'double strokes':
      return doubleStrokes(phrase);
    case 'thin out':
      return thinOut(stack, twist.keep, twist.limb);
    case 'orchestrate':
      return orchestrate(stack, twist.limb, twist.voice, twist.level);
    case 'merge':
      return merge(phrase, twist.with);
  }
}
