import { LaidLayers } from '../layers/laid-layers';
import type { Level } from '../model/level';
import type { Limb } from '../model/limb';
import type { Phrase } from '../model/phrase';
import type { Voice } from '../model/voice';
import { changeCycle } from './change-cycle';
import { changeSubdivision } from './change-subdivision';
import { displace } from './displace';
import { doubleStrokes } from './double-strokes';
import { merge } from './merge';
import { mirror } from './mirror';
import { orchestrate } from './orchestrate';
import { rotate } from './rotate';
import { swapVoices } from './swap-voices';
import { thinOut } from './thin-out';
import type { Made, Varied } from './varied';

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
export function vary(phrase: Phrase, twist: Twist): Varied | undefined {
  const made = twisted(new LaidLayers(phrase), twist);
  return made && { phrase: made.laid.phrase, sentence: made.sentence };
}

/** The same with the layers laid on. */
export function twisted(laid: LaidLayers, twist: Twist): Made | undefined {
  const { phrase } = laid;
  switch (twist.kind) {
    case 'rotate':
      return rotate(phrase, twist.by);
    case 'displace':
      return displace(laid, twist.by);
    case 'subdivision':
      return changeSubdivision(laid, twist.subdivision);
    case 'cycle':
      return changeCycle(phrase, twist.cycle);
    case 'swap voices':
      return swapVoices(laid, ...twist.voices);
    case 'mirror':
      return mirror(phrase);
    case 'double strokes':
      return doubleStrokes(phrase);
    case 'thin out':
      return thinOut(laid, twist.keep, twist.limb);
    case 'orchestrate':
      return orchestrate(laid, twist.limb, twist.voice, twist.level);
    case 'merge':
      return merge(phrase, twist.with);
  }
}
