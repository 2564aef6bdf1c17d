import { checkDraft } from '../check/draft-check';
import type { Phrase } from '../model/phrase';
import { playability } from '../playability/playability';
import { distance } from './distance';
import { offer } from './offer';
import { vary, type Twist } from './vary';
import { draftOf, type PhraseDraft } from '../model/phrase-draft';
import { playableUpTo, whyNoPhrase, whyUnplayable, type Refusal } from './refusal';
import type { SentTwist } from './twist-settings';

/** A twist of a phrase to be weighed, as plain data that can go to another thread. */
export interface TwistJob {
  readonly ask: 'twist';
  /** The phrase of the library that distances are measured from. */
  readonly original: PhraseDraft;
  /** What the twist is done to: the original, or a variation of it. */
  readonly base: PhraseDraft;
  readonly twist: SentTwist;
  /** The tempo it has to be playable at. */
  readonly bpm: number;
}

/** A varied phrase with its figures. */
export interface WeighedVariation {
  readonly draft: PhraseDraft;
  /** What changed. */
  readonly sentence: string;
  /** See distance. */
  readonly distance: number;
  /** The same from what the twist was done to. */
  readonly fromBase: number;
  /** See playability. */
  readonly difficulty: number;
  /** The fastest tempo at which all its layers can be played; Infinity when nothing limits it. */
  readonly upToBpm: number;
}

/** What a twist comes to. It is offered when nothing is refused. */
export interface Outcome {
  readonly variation: WeighedVariation | undefined;
  readonly refused: Refusal | undefined;
}

/** Varies, weighs, and says why not where it must not be offered. */
export function outcomeOf({ original, base, twist, bpm }: TwistJob): Outcome {
  const from = phraseOfDraft(base);
  const first = phraseOfDraft(original);
  const whole: Twist =
    twist.kind === 'merge' ? { ...twist, with: phraseOfDraft(twist.with) } : twist;
  const varied = vary(from, whole);
  if (!varied) return { variation: undefined, refused: { reasons: [whyNoPhrase(from, whole)] } };
  const { phrase, sentence } = varied;
  const offered = offer(first, varied, bpm);
  const fromBase = distance(from, phrase);
  const variation: WeighedVariation = {
    draft: draftOf(phrase),
    sentence,
    distance: offered?.distance ?? distance(first, phrase),
    fromBase,
    difficulty: offered?.difficulty ?? playability(phrase, phrase.layers.length, bpm).difficulty,
    upToBpm: playableUpTo(phrase),
  };
  if (fromBase === 0)
    return {
      variation,
      refused: { reasons: ['Nothing would sound different; choose another setting.'] },
    };
  if (!offered && variation.distance === 0)
    return {
      variation,
      refused: { reasons: ['This leads back to the original; choose another setting.'] },
    };
  return { variation, refused: offered ? undefined : whyUnplayable(phrase, bpm) };
}

/** The phrase of a draft that was one before it was sent. */
export function phraseOfDraft(draft: PhraseDraft): Phrase {
  const checked = checkDraft(draft);
  if (!checked.ok) throw new Error(checked.errors.map(({ message }) => message).join(' '));
  return checked.value;
}
