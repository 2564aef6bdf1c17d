import type { Level } from '../phrase/model/level';
import type { Voice } from '../phrase/model/voice';
import type { Interval } from '../score/statistics/wilson';
import { capital, countOf, shortText, timesText } from '../words/words';
import type { Certainty } from './evidence/certainty';
import { drillWords, type Drill } from './drill';
import { partialCount } from './evidence/partial-of-beat';
import {
  amountText,
  besideRest,
  betweenWords,
  certaintyWords,
  shareWords,
  sideText,
} from './figure-words';
import { levelWords } from './level-words';
import { struckWords } from './struck-words';
import { slippedBars } from './place/slipped-bars';

/**
 * Every sentence the coach can say, in one place. `text` is read from the throne: twelve words at most. One `advice` says
 * what to do next: what the program has, as `drill`, in the words of its button, or what a drummer does without it; `detail`, read at the desk, what the text rests on. A steady offset is told as a fact: drummers can place every stroke
 * ahead of the click or behind it when asked to (Sioros, Câmara & Danielsen, abstract of "Mapping timing
 * strategies in drum performance"), so it may be meant.
 */
export interface Sentence {
  readonly text: string;
  readonly advice: string;
  /** What of the program the advice names. */
  readonly drill?: Drill | undefined;
  /** How many strokes, and between which figures it lies; 25 words at most, where such figures are at hand. */
  readonly detail?: string;
}

/** Cycles that are heard, and answered. Chosen, not measured. */
const TURN_CYCLES = 2;

const WORDING = {
  undecided: ({ strokes, of }: { strokes: number; of: number }) => ({
    text: `Nothing to say about time yet: ${strokes} of ${of} strokes.`,
    advice: `Play longer: early, late and uneven are told from ${of} on.`,
  }),

  'nothing stands out': () => ({
    text: 'Nothing stands out.',
    advice: 'Nothing is far enough apart to be told. A longer take tells smaller differences.',
  }),

  even: ({ ms }: { ms: number }) => ({
    text: `Even: limbs, voices and partials within ${amountText(ms, 'ms')}.`,
    advice: 'Shown with 95 % certainty. To try next: the same layer at a faster tempo.',
  }),

  'other tempo': ({ playedBpm, clickBpm }: { playedBpm: number; clickBpm: number }) => {
    const [played, click] = bpmApart(playedBpm, clickBpm);
    return {
      text: `You play ${played}, the click is ${click}.`,
      // The program has whole tempi.
      ...(played === click || played.includes('.')
        ? { advice: 'Listen to two bars of click before the first stroke.' }
        : advised(
            { kind: 'other tempo', bpm: Number(played) },
            (words) => `${capital(words)}, or listen to two bars of click before the first stroke.`,
          )),
    };
  },

  'lost place': ({
    partials,
    subdivision,
    fromBar,
    toBar,
    times,
    repeats,
  }: {
    partials: number;
    subdivision: number;
    fromBar: number;
    toBar: number | undefined;
    times: number;
    repeats: number;
  }) => {
    const where = toBar === undefined ? `since bar ${fromBar}` : slippedBars(fromBar, toBar);
    return {
      text: `Slipped ${partialCount(Math.abs(partials), subdivision)} ${sideText(partials)} ${where}.`,
      detail: [
        times > 1 ? `The place was lost ${timesText(times)}; this is the longest.` : '',
        `Every ${countOf(repeats, 'partial')} is the same place of the pattern, so perhaps that many more.`,
      ]
        .filter((one) => one !== '')
        .join(' '),
      advice: 'When it happens, press Wait for me or Bring me back, and count aloud.',
    };
  },

  drift: ({ ms, bars, isGrowing }: { ms: number; bars: number; isGrowing: boolean }) => ({
    text: `${ms < 0 ? 'Rushing' : 'Dragging'}${isGrowing ? ' more and more' : ''}: ${amountText(ms, 'ms')} over ${countOf(bars, 'bar')}.`,
    advice: 'Count the subdivision aloud, the rests too.',
  }),

  'silent bars': ({ ms, returns, sure }: { ms: number; returns: number; sure: Interval }) => ({
    text: `${ms < 0 ? 'Rushing' : 'Dragging'} without the click: ${amountText(ms, 'ms')} by its return.`,
    detail: `${countOf(returns, 'return')}; ${betweenWords(sure, `ms ${sideText(ms)}`)}.`,
    advice: 'Count the subdivision aloud through the silent bars.',
  }),

  'all strokes off': ({ ms, sure }: { ms: number; sure: Certainty }) => ({
    text: `All strokes ${amountText(ms, 'ms')} ${sideText(ms)}.`,
    detail: certaintyWords(sure, `ms ${sideText(ms)}`),
    ...advised(
      { kind: 'rig offset' },
      (words) => `The same on every limb: ${words}, unless it is meant.`,
    ),
  }),

  swing: ({ played, written, sure }: { played: number; written: number; sure: Certainty }) => ({
    text: `Swing ${shortText(played, 1)} to 1, written ${shortText(written, 1)} to 1.`,
    detail: certaintyWords(sure, 'to 1'),
    ...advised(
      { kind: 'turns', cycles: TURN_CYCLES },
      (words) => `${capital(words)}, unless it is meant.`,
    ),
  }),

  'partial off': (facts: PlacingFacts & { isOfLimb: boolean }) => ({
    ...placed(facts, facts.isOfLimb ? ', steadily' : ''),
    ...slower((words) => `Unless it is meant, ${words}, counting every partial aloud.`),
  }),
  'limb off': (facts: PlacingFacts) => ({
    ...placed(facts, ', steadily'),
    ...advised(
      { kind: 'limb alone', name: facts.name },
      (words) => `Unless it is meant, ${words}, then with the rest.`,
    ),
  }),
  'voice off': (facts: PlacingFacts) => ({
    ...placed(facts, ', steadily'),
    ...slower(
      (words) => `Unless it is meant, ${words}, and stop on each stroke of the ${facts.name}.`,
    ),
  }),
  'level off': (facts: PlacingFacts) => ({
    ...placed(facts),
    ...slower(
      (words) =>
        `Unless it is meant, ${words}, all at one level first, then with the ${facts.name}.`,
    ),
  }),
  'layer off': (facts: PlacingFacts & { layer: number }) => ({
    ...placed(facts),
    ...advised(
      { kind: 'other layer', layer: facts.layer - 1 },
      (words) => `Unless it is meant, ${words}, then this one again.`,
    ),
  }),
  'position off': (facts: PlacingFacts) => ({
    ...placed({ ...facts, name: `${facts.name}:` }),
    ...slower((words) => `Unless it is meant, ${words}, and say that partial aloud.`),
  }),
  'transition off': (facts: PlacingFacts) => ({
    ...placed({ ...facts, name: `${facts.name}:` }),
    ...slower((words) => `${capital(words)}, with an ear on the move between the two.`),
  }),
  'unison off': (facts: PlacingFacts & { limbs: readonly [string, string] }) => ({
    ...placed({ ...facts, name: unisonsName(facts.limbs) }),
    ...slower((words) => `${capital(words)}, until the unisons sound as one.`),
  }),

  'spread apart': ({ name, ms, restMs }: { name: string; ms: number; restMs: number }) => ({
    text: `${capital(name)}: spread ${amountText(ms, 'ms')}, more than the rest.`,
    detail: `The rest: spread ${amountText(restMs, 'ms')}.`,
    ...slower((words) => `${capital(words)}, until they are as even as the rest.`),
  }),

  'spread grows': ({ fromMs, toMs }: { fromMs: number; toMs: number }) => ({
    text: `Spread grows to ${amountText(toMs, 'ms')}.`,
    detail: `In the first third ${amountText(fromMs, 'ms')}, in the last ${amountText(toMs, 'ms')}.`,
    advice: 'Play shorter takes with a rest between them.',
  }),

  spread: ({ ms }: { ms: number }) => ({
    text: `Spread ${amountText(ms, 'ms')}.`,
    ...advised(
      { kind: 'layer slower' },
      (words) =>
        `${capital(words)}, until the notes fall inside their windows, then bring the tempo back.`,
    ),
  }),

  missed: ({ name, times, of }: ShareFacts) => ({
    text: name
      ? `${capital(name)}: missed ${times} of ${of}.`
      : `${times} of ${countOf(of, 'note')} missed.`,
    detail: shareWords(times, of, 'missed'),
    ...(name === undefined
      ? advised({ kind: 'layer slower' }, (words) => `${capital(words)}, until all of it is there.`)
      : slower(
          (words) =>
            `${capital(words)}: stop on what is missed, then go on over it. A pad may also not answer.`,
        )),
  }),

  'own notes wrong': ({ layerName, how, times, of }: OwnFacts) => ({
    text: `“${layerName}”: ${times} of its ${countOf(of, 'note')} ${how}.`,
    detail: shareWords(times, of, how),
    ...slower((words) => `${capital(words)}; the other notes of the layer are right more often.`),
  }),

  'too loud': ({ level, db, ...where }: LevelFacts) => ({
    text: `${levelWords(level, where.name)} too loud: ${where.times} of ${where.of}.`,
    detail: `${shareWords(where.times, where.of, 'too loud')} ${halfBy(db)}`,
    ...advised({ kind: 'these notes' }, (words) =>
      level === 'ghost'
        ? `${capital(words)}, the stick lower for the ghosts; leave the rest where it is.`
        : `${capital(words)}, and keep these under the accents: the stick stays lower.`,
    ),
  }),

  'too soft': ({ level, db, ...where }: LevelFacts) => ({
    text: `${levelWords(level, where.name)} too soft: ${where.times} of ${where.of}.`,
    detail: `${shareWords(where.times, where.of, 'too soft')} ${halfBy(db)}`,
    ...advised({ kind: 'these notes' }, (words) =>
      level === 'accent'
        ? `${capital(words)}, the stick lifted before the accent; leave the rest where it is.`
        : `${capital(words)}, and keep these clear of the ghosts: the stick starts higher.`,
    ),
  }),

  contrast: ({ db, aimDb, sure }: { db: number; aimDb: number; sure: Certainty }) => ({
    // Below the aim in words, too: 14.6 is not told as the 15 that it falls short of.
    text: `Contrast ${amountText(Math.min(Math.round(db), aimDb - 1), 'dB')}: accents too near the ghosts.`,
    detail: certaintyWords(sure, 'dB'),
    advice: `Aim at ${aimDb} dB: lower the ghosts first, then lift the accents.`,
  }),

  'levels inverted': ({ db }: { db: number }) => ({
    text: `Ghosts ${amountText(db, 'dB')} louder than the accents.`,
    advice: 'Play the accents alone through the cycle, then let the ghosts in.',
  }),

  'wrong voice': ({
    written,
    struck,
    times,
    name,
  }: PairFacts & { times: number; name: string | undefined }) => ({
    ...struckWords(
      `${capital(struck)} struck for ${written}, ${countOf(times, 'time')}`,
      name === written ? undefined : name,
    ),
    ...slower((words) =>
      opensHiHat(written, struck)
        ? `${capital(words)}, the foot moving before the stroke. The kit may also count the hi-hat as open elsewhere.`
        : `${capital(words)}, and stop on each stroke of the ${written}.`,
    ),
  }),

  'voice mapped': ({ written, struck }: PairFacts) => ({
    text: `Nearly every ${written} arrives as ${struck}.`,
    ...advised(
      { kind: 'note map' },
      (words) => `${capital(words)} first: this may be the map and not you.`,
    ),
  }),

  bounces: ({ name, times, of }: ShareFacts) => ({
    text: `Bounces${name ? `, ${name}` : ''}: ${times} of ${countOf(of, 'stroke')}.`,
    detail: shareWords(times, of, 'followed by one'),
    advice: 'Hold the stick after the stroke; if it is the pad, raise its retrigger time.',
  }),

  extras: ({ times, mostOn, beside }: ExtraFacts) => ({
    text: `${countOf(times, 'extra stroke')}${mostOn ? `, most on ${mostOn}` : ''}.`,
    ...(beside && { detail: `Most of them beside ${beside}.` }),
    advice: 'Strokes that this layer does not have: sing it over the click, then play only that.',
  }),
} satisfies Record<string, (facts: never) => Sentence>;

/** Notes in a sentence, and how far they lie from the click, or else from the rest. */
interface PlacingFacts {
  name: string;
  ms: number;
  isOwn: boolean;
  /** How far from the rest. */
  sure: Certainty;
}
interface ShareFacts {
  name: string | undefined;
  times: number;
  of: number;
}
interface LevelFacts extends ShareFacts {
  level: Level;
  db: number;
}
/** What became of most of a layer's own notes. */
export type OwnFault = 'missed' | 'in another voice' | 'early' | 'late' | 'too loud' | 'too soft';
interface OwnFacts {
  layerName: string;
  how: OwnFault;
  times: number;
  of: number;
}
interface ExtraFacts {
  times: number;
  mostOn: Voice | undefined;
  beside: string | undefined;
}
interface PairFacts {
  written: Voice;
  struck: Voice;
}

export type FindingCode = keyof typeof WORDING;
export type FactsOf<Code extends FindingCode> = Parameters<(typeof WORDING)[Code]>[0];

/** @example wording('drift', { ms: -18, bars: 8, isGrowing: false }).text // => 'Rushing: 18 ms over 8 bars.' */
export const wording = <Code extends FindingCode>(code: Code, facts: FactsOf<Code>): Sentence =>
  (WORDING[code] as (facts: FactsOf<Code>) => Sentence)(facts);

/** Advice that names what the program has. */
const advised = (drill: Drill, advice: (words: string) => string) => ({
  drill,
  advice: advice(drillWords(drill)),
});

const slower = (advice: (words: string) => string) =>
  advised({ kind: 'these notes slower' }, advice);

/** Whose strokes of the unisons it is about: "unisons with right foot: right hand". */
export const unisonsName = ([limb, partner]: readonly [string, string]): string =>
  `unisons with ${partner}: ${limb}`;

/** A limb that is apart bar after bar is described, not blamed: professionals' are, too (Fujii et al. 2011). */
function placed({ name, ms, isOwn, sure }: PlacingFacts, how = '') {
  const side = isOwn ? sideText(ms) : besideRest(ms);
  const text = `${capital(name)} ${amountText(ms, 'ms')} ${side}${how}.`;
  return { text, detail: certaintyWords(sure, `ms ${besideRest(sure.interval.lower)}`) };
}

/** How far beyond their boundary, which is a median. */
const halfBy = (db: number): string => `Half of them by ${amountText(db, 'dB')} or more.`;

/** Whole beats a minute, or tenths where these would be the same. */
function bpmApart(played: number, click: number): [string, string] {
  const digits = Math.round(played) === Math.round(click) ? 1 : 0;
  return [played.toFixed(digits), shortText(click, 1)];
}

const opensHiHat = (a: Voice, b: Voice) =>
  [a, b].every((voice) => voice === 'hi-hat open' || voice === 'hi-hat closed');
