import { median } from 'simple-statistics';
import type { CrosstalkMask, Kit } from '../kit';
import { padGroups } from '../pad-groups';
import type { Stroke } from '../stroke';
import { HARD_FROM, strikes } from './strikes';
import { clamp } from '../../time/whole';

/** All that came while one pad, and no other, was struck hard a few times. */
export interface StruckPad {
  /** MIDI note number of the pad that was asked for. */
  readonly note: number;
  readonly strokes: readonly Pick<Stroke, 'timeUs' | 'velocity' | 'pad'>[];
}

/** One group of pads that answers another. */
export interface CrosstalkAnswer {
  readonly struck: string;
  readonly answers: string;
  /** Strikes on the struck group, and how many of them the other answered. */
  readonly strikes: number;
  readonly answered: number;
  /** Answer minus strike, ms, the median; negative when it comes first. */
  readonly delayMs: number;
  /** The loudest answer as a share of its strike's velocity, in percent. */
  readonly loudestPercent: number;
}

export interface LearnedCrosstalk {
  /** Most frequent first. */
  readonly answers: readonly CrosstalkAnswer[];
  /** For the kit file, in the same order; pairs that answer too loudly to be masked are left out. */
  readonly masks: readonly CrosstalkMask[];
  /** One each pair, with the setting that usually cures it. */
  readonly sentences: readonly string[];
  /** Groups that were not struck hard often enough to say anything. */
  readonly notLearned: readonly string[];
}

/** Chosen, not measured. */
const FEWEST_STRIKES = 4;
/** An answer comes at most this long before or after. Chosen, not measured. */
const ANSWER_US = 20_000;
const FEWEST_ANSWERS = 2;
/** Added to the longest delay and the loudest answer that were heard. Chosen, not measured. */
const MARGIN_MS = 2;
const MARGIN_RATIO = 1.2;
/** The defaults for pairs that were not learned: a mask is never narrower. */
const LEAST_MS = 5;
const LEAST_PERCENT = 16;
/** A louder answer cannot be told from a real soft stroke beside an accent. Chosen, not measured. */
const MOST_PERCENT = 40;

/**
 * Which pads answer when another is struck. What comes on other pads near a hard strike is taken for
 * an answer, since the player was asked to strike one pad only.
 *
 * @example learnCrosstalk(GENERAL_MIDI, []).masks // => []
 */
export function learnCrosstalk(kit: Kit, struck: readonly StruckPad[]): LearnedCrosstalk {
  const { names, ofNote } = padGroups(kit);
  const pairs = new Map<string, Found>();
  const strikesOf = new Map<string, number>();
  for (const { note, strokes } of struck) {
    const group = names[ofNote[note]!];
    if (group === undefined) continue;
    const mapped = strokes.filter(({ pad }) => ofNote[pad]! >= 0);
    const onPad = mapped.filter(({ pad }) => names[ofNote[pad]!] === group);
    const hard = strikes(onPad).filter(({ velocity }) => velocity >= HARD_FROM);
    strikesOf.set(group, (strikesOf.get(group) ?? 0) + hard.length);
    for (const strike of hard) {
      const loudest = new Map<string, (typeof mapped)[number]>();
      for (const other of mapped) {
        const answers = names[ofNote[other.pad]!]!;
        if (answers === group || Math.abs(other.timeUs - strike.timeUs) > ANSWER_US) continue;
        if (other.velocity > (loudest.get(answers)?.velocity ?? 0)) loudest.set(answers, other);
      }
      for (const [answers, other] of loudest) {
        const key = JSON.stringify([group, answers]);
        const found = pairs.get(key) ?? { struck: group, answers, delaysUs: [], percents: [] };
        found.delaysUs.push(other.timeUs - strike.timeUs);
        found.percents.push((100 * other.velocity) / strike.velocity);
        pairs.set(key, found);
      }
    }
  }
  const learned = [...pairs.values()]
    .filter(({ struck: group, delaysUs }) => {
      return strikesOf.get(group)! >= FEWEST_STRIKES && delaysUs.length >= FEWEST_ANSWERS;
    })
    .map((found) => ({
      answer: answerOf(found, strikesOf.get(found.struck)!),
      mask: maskOf(found),
    }))
    .sort((a, b) => b.answer.answered / b.answer.strikes - a.answer.answered / a.answer.strikes);
  return {
    answers: learned.map(({ answer }) => answer),
    masks: learned.flatMap(({ mask }) => (mask ? [mask] : [])),
    sentences: learned.map(({ answer, mask }) => sentence(answer, mask)),
    notLearned: [...strikesOf].filter(([, n]) => n < FEWEST_STRIKES).map(([group]) => group),
  };
}

interface Found {
  readonly struck: string;
  readonly answers: string;
  readonly delaysUs: number[];
  readonly percents: number[];
}

function answerOf(
  { struck, answers, delaysUs, percents }: Found,
  strikes: number,
): CrosstalkAnswer {
  return {
    struck,
    answers,
    strikes,
    answered: delaysUs.length,
    delayMs: median(delaysUs) / 1000,
    loudestPercent: Math.max(...percents),
  };
}

function maskOf({ struck, answers, delaysUs, percents }: Found): CrosstalkMask | undefined {
  const loudest = Math.max(...percents);
  if (loudest > MOST_PERCENT) return undefined;
  const farthestMs = Math.max(...delaysUs.map(Math.abs)) / 1000;
  return {
    struck,
    answers,
    withinMs: Math.max(LEAST_MS, Math.ceil(farthestMs + MARGIN_MS)),
    upToPercent: clamp(Math.ceil(loudest * MARGIN_RATIO), LEAST_PERCENT, MOST_PERCENT),
  };
}

/** The settings that usually cure it: common practice, no source. */
function sentence(answer: CrosstalkAnswer, mask: CrosstalkMask | undefined): string {
  const { struck, answers, strikes, answered, delayMs, loudestPercent } = answer;
  const order = `${Math.abs(delayMs).toFixed(1)} ms ${delayMs < 0 ? 'before' : 'after'} it`;
  const told = `“${answers}” answered ${answered} of ${strikes} strikes on “${struck}”, ${order}, with up to ${Math.round(loudestPercent)} % of their velocity`;
  return mask
    ? `${told}; kept in the kit, such strokes are set aside. Raising the crosstalk level of “${answers}” on the sound module cures it at the source.`
    : `${told}; that is too loud to be told from a real soft stroke. Raise the crosstalk level or threshold of “${answers}” on the sound module, or move it off the stand they share.`;
}

/**
 * The kit with these pairs in place of what it knew of the same ones.
 *
 * @example withCrosstalk(GENERAL_MIDI, []).crosstalk // => []
 */
export const withCrosstalk = (kit: Kit, masks: readonly CrosstalkMask[]): Kit => ({
  ...kit,
  crosstalk: [
    ...(kit.crosstalk ?? []).filter(
      (old) => !masks.some((mask) => mask.struck === old.struck && mask.answers === old.answers),
    ),
    ...masks,
  ],
});

/**
 * The kit with none of these groups' answers: the defaults hold for them again.
 *
 * @example withoutCrosstalk(withCrosstalk(GENERAL_MIDI, [{ struck: 'snare', answers: 'hi-hat', withinMs: 8, upToPercent: 20 }]), ['snare']).crosstalk // => []
 */
export const withoutCrosstalk = (kit: Kit, struck: readonly string[]): Kit => ({
  ...kit,
  crosstalk: (kit.crosstalk ?? []).filter((mask) => !struck.includes(mask.struck)),
});
