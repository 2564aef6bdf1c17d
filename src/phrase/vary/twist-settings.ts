import type { Level } from '../model/level';
import { isHand, type Limb } from '../model/limb';
import type { Phrase } from '../model/phrase';
import type { PhraseDraft } from '../model/phrase-draft';
import { isFootVoice } from '../playability/places';
import { vary, type Twist } from './vary';
import type { Voice } from '../model/voice';
import { twistFacts } from './twist-facts';

export type TwistKind = Twist['kind'];

/** Every kind of twist, in the order they are shown. */
export const TWIST_KINDS: readonly TwistKind[] = [
  'rotate',
  'displace',
  'subdivision',
  'cycle',
  'swap voices',
  'mirror',
  'thin out',
  'double strokes',
  'orchestrate',
  'merge',
];

/** What the player has set for each kind, kept while another kind is looked at. */
export interface TwistSettings {
  /** Partials further on, 1 to one less than the cycle. */
  readonly rotateBy: number;
  /** Partials later against the bar; negative: earlier. */
  readonly displaceBy: number;
  readonly subdivision: number;
  readonly cycle: number;
  readonly voices: readonly [Voice, Voice];
  readonly keep: number;
  /** Undefined: all limbs together. */
  readonly keepLimb?: Limb | undefined;
  readonly limb: Limb;
  readonly voice: Voice;
  /** Undefined: at every level. */
  readonly level?: Level | undefined;
  /** The library's id of the phrase to merge with. */
  readonly withId?: string | undefined;
}

/** Where a voice goes first. Chosen, not measured. */
const OTHER_VOICES: readonly Voice[] = ['high tom', 'ride', 'bass drum', 'hi-hat pedal'];

/** Where a limb goes first, as far as hands or feet can play it. Chosen, not measured. */
const LIMB_VOICES: readonly Voice[] = [
  'ride',
  'hi-hat closed',
  'floor tom',
  'high tom',
  'crash',
  'bass drum',
  'hi-hat pedal',
  'hi-hat foot splash',
];

/** What is set before the player sets anything: small changes of this phrase. */
export function usualSettings(phrase: Phrase): TwistSettings {
  const { subdivision, limbs, voices, onsets } = twistFacts(phrase);
  const from = voices[0] ?? 'snare';
  const limb = limbs[0] ?? 'R';
  const other = (one: Voice, isFoot: boolean): Voice =>
    [...voices, ...OTHER_VOICES].find((voice) => voice !== one && isFootVoice(voice) === isFoot) ??
    one;
  return {
    rotateBy: leastRotation(phrase),
    displaceBy: 1,
    subdivision: subdivision === 3 ? 2 : 3,
    cycle: phrase.cycle > 1 ? phrase.cycle - 1 : 2,
    voices: [from, other(from, isFootVoice(from))],
    keep: Math.max(1, Math.ceil((onsets() * 2) / 3)),
    keepLimb: undefined,
    limb,
    voice: elsewhere(phrase, limb),
    level: undefined,
    withId: undefined,
  };
}

/** Rotations tried at most. Chosen, not measured: a few milliseconds each. */
const MOST_TRIES = 16;

/** The least rotation after which every layer still finds its notes; 1 where none is near. */
function leastRotation(phrase: Phrase): number {
  const tries = Math.min(MOST_TRIES, phrase.cycle - 1);
  for (let by = 1; by <= tries; by++) if (vary(phrase, { kind: 'rotate', by })) return by;
  return 1;
}

/** A voice on which the limb does not play yet, where there is one. */
export function elsewhere(phrase: Phrase, limb: Limb): Voice {
  const now = twistFacts(phrase).voicesOf(limb);
  const fitting = LIMB_VOICES.filter((voice) => isFootVoice(voice) !== isHand(limb));
  return fitting.find((voice) => !now.includes(voice)) ?? fitting[0]!;
}

/** A twist as plain data that can go to another thread: a phrase to merge with as its draft. */
export type SentTwist =
  | Exclude<Twist, { readonly kind: 'merge' }>
  | { readonly kind: 'merge'; readonly with: PhraseDraft };

/** The twist that is set; undefined while no phrase to merge with is chosen. */
export function sentTwist(
  kind: TwistKind,
  settings: TwistSettings,
  draftFor: (id: string) => PhraseDraft | undefined,
): SentTwist | undefined {
  const { keepLimb, limb, voice, level, withId } = settings;
  switch (kind) {
    case 'rotate':
      return { kind, by: settings.rotateBy };
    case 'displace':
      return { kind, by: settings.displaceBy };
    case 'subdivision':
      return { kind, subdivision: settings.subdivision };
    case 'cycle':
      return { kind, cycle: settings.cycle };
    case 'swap voices':
      return { kind, voices: [...settings.voices] };
    case 'mirror':
    case 'double strokes':
      return { kind };
    case 'thin out':
      return { kind, keep: settings.keep, ...(keepLimb && { limb: keepLimb }) };
    case 'orchestrate':
      return { kind, limb, voice, ...(level && { level }) };
    case 'merge': {
      const other = withId === undefined ? undefined : draftFor(withId);
      return other && { kind, with: other };
    }
  }
}
