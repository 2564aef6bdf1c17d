import { parsePhrase } from '../file/parse-phrase';
import type { Phrase } from '../model/phrase';
import { playability } from '../playability/playability';
import { distance } from './distance';
import { offer } from './offer';
import { vary, type Twist } from './vary';
import { writePhrase } from '../file/write-phrase';
import { playableUpTo, whyNoPhrase, whyUnplayable, type Refusal } from './refusal';
import type { SentTwist } from './twist-settings';

/** A twist of a phrase to be weighed, as plain data that can go to another thread: phrases are texts of files. */
export interface TwistJob {
  readonly ask: 'twist';
  /** The phrase of the library that distances are measured from. */
  readonly original: string;
  /** What the twist is done to: the original, or a variation of it. */
  readonly base: string;
  readonly twist: SentTwist;
  /** The tempo it has to be playable at. */
  readonly bpm: number;
}

/** A varied phrase with its figures. */
export interface Made {
  /** Its file. */
  readonly text: string;
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
  readonly made: Made | undefined;
  readonly refused: Refusal | undefined;
}

/** Varies, weighs, and says why not where it must not be offered. */
export function outcomeOf({ original, base, twist, bpm }: TwistJob): Outcome {
  const from = read(base);
  const first = read(original);
  const whole: Twist = twist.kind === 'merge' ? { ...twist, with: read(twist.with) } : twist;
  const varied = vary(from, whole);
  if (!varied) return { made: undefined, refused: { reasons: [whyNoPhrase(from, whole)] } };
  const { phrase, sentence } = varied;
  const offered = offer(first, varied, bpm);
  const fromBase = distance(from, phrase);
  const made: Made = {
    text: writePhrase(phrase),
    sentence,
    distance: offered?.distance ?? distance(first, phrase),
    fromBase,
    difficulty: offered?.difficulty ?? playability(phrase, phrase.layers.length, bpm).difficulty,
    upToBpm: playableUpTo(phrase),
  };
  if (fromBase === 0)
    return {
      made,
      refused: { reasons: ['Nothing would sound different; choose another setting.'] },
    };
  if (!offered && made.distance === 0)
    return {
      made,
      refused: { reasons: ['This leads back to the original; choose another setting.'] },
    };
  return { made, refused: offered ? undefined : whyUnplayable(phrase, bpm) };
}

/** A phrase that this app has written. */
export function read(text: string): Phrase {
  const parsed = parsePhrase(text);
  if (!parsed.ok) throw new Error(parsed.errors.map(({ message }) => message).join(' '));
  return parsed.value;
}
