import { startingVoice } from '../phrase/layers/layer-stroke';
import { LIMBS, type Limb } from '../phrase/model/limb';
import type { Note } from '../phrase/model/note';
import type { Voice } from '../phrase/model/voice';

/** Whose voice says which foot it is. */
const ownFoot = (voice: Voice): Limb | undefined =>
  voice === startingVoice('K') ? 'K' : isPedal(voice) ? 'F' : undefined;
const isPedal = (voice: Voice): boolean =>
  voice === startingVoice('F') || voice === 'hi-hat foot splash';

/**
 * The limb that strikes a note, as it is written under it: a capital, or a small letter for a grace note, as stickings are
 * printed, with its main note's limb where that is not the other hand; undefined where a foot plays its own drum.
 *
 * @example stickingLyric({ limb: 'L', voice: 'snare', graceStep: 1, graceOf: 'R' }) // => 'l'
 */
export function stickingLyric({
  limb,
  voice,
  graceStep,
  graceOf,
}: Pick<Note, 'limb' | 'voice' | 'graceStep' | 'graceOf'>): string | undefined {
  if (graceStep === 0) return ownFoot(voice) === limb ? undefined : limb;
  return limb.toLowerCase() + (graceOf === otherHand(limb) ? '' : graceOf);
}

/** Who strikes a note, as far as a file tells. */
export interface WrittenHand {
  readonly limb: Limb | undefined;
  /** Undefined where nothing is written under the note. */
  readonly isGrace: boolean | undefined;
  /** The limb of the main note, of a grace note. */
  readonly graceOf: Limb | undefined;
}

/** The limb of a note by the letter under it, or by its voice where only one foot plays that. */
export function writtenHand(lyric: string | undefined, voice: Voice): WrittenHand {
  const [, main, grace, of] = LETTERS.exec(lyric ?? '') ?? [];
  const limb = limbOf(main ?? grace?.toUpperCase());
  if (limb === undefined) return { limb: ownFoot(voice), isGrace: undefined, graceOf: undefined };
  if (main !== undefined) return { limb, isGrace: false, graceOf: undefined };
  return { limb, isGrace: true, graceOf: limbOf(of) ?? otherHand(limb) };
}

const LETTERS = /^(?:([RLKF])|([rlkf])([RLKF])?)$/;
const limbOf = (letter: string | undefined) => LIMBS.find((one) => one === letter);
const otherHand = (limb: Limb): Limb | undefined =>
  limb === 'R' ? 'L' : limb === 'L' ? 'R' : undefined;
