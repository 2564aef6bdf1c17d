import type { Level } from '../phrase/model/level';
import type { Voice } from '../phrase/model/voice';
import { wilson, type Interval } from '../score/wilson';
import { capital, countOf, decimalText, timesText } from '../words/words';
import type { Certainty } from './evidence/certainty';
import { partialCount } from './evidence/partial-of-beat';

/**
 * Every sentence the coach can say, in one place. `text` is read from the throne: twelve words at most. One `advice` says
 * what to do next, with what the program has; `detail`, read at the desk, what the text rests on. A steady offset is told as a fact: drummers can place every stroke
 * ahead of the click or behind it when asked to (Sioros, Câmara & Danielsen, abstract of "Mapping timing
 * strategies in drum performance"), so it may be meant.
 */
export interface Sentence {
  readonly text: string;
  readonly advice: string;
  /** How many strokes, and between which figures it lies; 25 words at most, where such figures are at hand. */
  readonly detail?: string;
}

const WORDING = {
  undecided: ({ strokes, of }: { strokes: number; of: number }) => ({
    text: `Not enough strokes yet: ${strokes} of ${of}.`,
    advice: 'Time is judged from that many on.',
  }),

  'nothing stands out': () => ({
    text: 'Nothing stands out.',
    advice: 'No limb, partial or position is apart from the rest beyond chance.',
  }),

  even: ({ ms }: { ms: number }) => ({
    text: `Even: limbs, voices and partials within ${amount(ms, 'ms')}.`,
    advice: 'Shown with 95 % certainty, not only not seen.',
  }),

  'other tempo': ({ playedBpm, clickBpm }: { playedBpm: number; clickBpm: number }) => {
    const [played, click] = bpmApart(playedBpm, clickBpm);
    return {
      text: `You play ${played}, the click is ${click}.`,
      advice: `Set the tempo to ${played}, or listen to two bars of click before you start.`,
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
    const where =
      toBar === undefined
        ? `since bar ${fromBar}`
        : toBar > fromBar
          ? `from bar ${fromBar} to ${toBar}`
          : `in bar ${fromBar}`;
    return {
      text: `Slipped ${partialCount(Math.abs(partials), subdivision)} ${side(partials)} ${where}.`,
      detail: [
        times > 1 ? `The place was lost ${timesText(times)}; this is the longest.` : '',
        `The pattern sounds the same after ${countOf(repeats, 'partial')}, so it may be that many more.`,
      ]
        .filter((one) => one !== '')
        .join(' '),
      advice: 'When it happens, press Wait for me or Bring me back, and count aloud.',
    };
  },

  drift: ({ ms, bars, isGrowing }: { ms: number; bars: number; isGrowing: boolean }) => ({
    text: `${ms < 0 ? 'Rushing' : 'Dragging'}${isGrowing ? ' more and more' : ''}: ${amount(ms, 'ms')} over ${countOf(bars, 'bar')}.`,
    advice: 'Count the subdivision aloud, the rests too.',
  }),

  'silent bars': ({ ms, returns, sure }: { ms: number; returns: number; sure: Interval }) => ({
    text: `Without the click ${ms < 0 ? 'rushing' : 'dragging'}: ${amount(ms, 'ms')} by its return.`,
    detail: `${countOf(returns, 'return')}; ${between(sure, `ms ${side(ms)}`)}.`,
    advice: 'Count the subdivision aloud through the silent bars, or make them fewer.',
  }),

  'all strokes off': ({ ms, sure }: { ms: number; sure: Certainty }) => ({
    text: `All strokes ${amount(ms, 'ms')} ${side(ms)}.`,
    detail: certain(sure, `ms ${side(ms)}`),
    advice: 'The same on every limb: measure the latency, unless it is meant.',
  }),

  swing: ({ played, written, sure }: { played: number; written: number; sure: Certainty }) => ({
    text: `Swing ${ratio(played)} to 1, written ${ratio(written)} to 1.`,
    detail: certain(sure, 'to 1'),
    advice: 'Hear the layer first, then sing it over the click; unless it is meant.',
  }),

  'partial off': (facts: PlacingFacts) => ({
    ...placed(facts),
    advice: `Unless it is meant, count every partial aloud and slow down until it falls in place.`,
  }),
  'limb off': (facts: PlacingFacts) => ({
    ...placed(facts, ', steadily'),
    advice: `Unless it is meant, play the ${facts.name} alone with the click, then with the rest.`,
  }),
  'voice off': (facts: PlacingFacts) => ({
    ...placed(facts, ', steadily'),
    advice: `Unless it is meant, play up to each stroke on ${facts.name} slowly and stop there.`,
  }),
  'level off': (facts: PlacingFacts) => ({
    ...placed(facts),
    advice: `Unless it is meant, play all at one level with the click, then bring the ${facts.name} back.`,
  }),
  'layer off': (facts: PlacingFacts) => ({
    ...placed(facts),
    advice: 'Unless it is meant, play the layer before with the click, then this one again.',
  }),
  'position off': (facts: PlacingFacts) => ({
    ...placed(facts),
    advice: 'Unless it is meant, play the strokes around it slowly, and say that partial aloud.',
  }),
  'transition off': (facts: PlacingFacts) => ({
    ...placed({ ...facts, name: `the move ${facts.name}` }),
    advice: 'Play only the move between the two, slowly.',
  }),
  'unison off': (facts: PlacingFacts) => ({
    ...placed({ ...facts, name: `in unisons, ${facts.name}` }),
    advice: 'Play the unisons alone until they sound as one.',
  }),

  'spread apart': ({ name, ms, restMs }: { name: string; ms: number; restMs: number }) => ({
    text: `${capital(name)}: spread ${amount(ms, 'ms')}, the rest ${amount(restMs, 'ms')}.`,
    advice: 'Slow down until they are as even as the rest.',
  }),

  'spread grows': ({ fromMs, toMs }: { fromMs: number; toMs: number }) => ({
    text: `Spread grows from ${Math.round(fromMs)} to ${amount(toMs, 'ms')}.`,
    advice: 'Play shorter takes with a rest between them, or slow down.',
  }),

  spread: ({ ms }: { ms: number }) => ({
    text: `Spread ${amount(ms, 'ms')}.`,
    advice: 'Slow down until the notes fall inside their windows, then bring the tempo back.',
  }),

  missed: ({ name, times, of }: ShareFacts) => ({
    text: name
      ? `${capital(name)}: missed ${times} of ${of}.`
      : `${times} of ${countOf(of, 'note')} missed.`,
    detail: share(times, of, 'missed'),
    advice: name
      ? `Play up to there and stop on it, then go on over it. A pad may also not answer.`
      : 'Slow down, or go back one layer.',
  }),

  'own notes wrong': ({ layerName, how, times, of }: OwnFacts) => ({
    text: `“${layerName}”: ${times} of its ${countOf(of, 'note')} ${how}.`,
    detail: share(times, of, how),
    advice: 'Hear this layer, then play it slower; the layer before is there already.',
  }),

  'too loud': ({ level, db, ...where }: LevelFacts) => ({
    text: `${levelWords(level, where)} too loud: ${where.times} of ${where.of}, by ${amount(db, 'dB')}.`,
    detail: share(where.times, where.of, 'too loud'),
    advice:
      level === 'ghost'
        ? 'Start the ghosts with the stick lower; leave the rest where it is.'
        : 'Keep these under the accents: the stick stays lower.',
  }),

  'too soft': ({ level, db, ...where }: LevelFacts) => ({
    text: `${levelWords(level, where)} too soft: ${where.times} of ${where.of}, by ${amount(db, 'dB')}.`,
    detail: share(where.times, where.of, 'too soft'),
    advice:
      level === 'accent'
        ? 'Lift the stick before the accent; leave the rest where it is.'
        : 'Keep these clear of the ghosts: the stick starts higher.',
  }),

  contrast: ({ db, aimDb, sure }: { db: number; aimDb: number; sure: Certainty }) => ({
    text: `Contrast ${amount(db, 'dB')}: accents too near the ghosts.`,
    detail: certain(sure, 'dB'),
    advice: `Aim at ${aimDb} dB: lower the ghosts first, then lift the accents.`,
  }),

  'levels inverted': ({ db }: { db: number }) => ({
    text: `Ghosts ${amount(db, 'dB')} louder than the accents.`,
    advice: 'Play the accents alone through the cycle, then let the ghosts in.',
  }),

  'wrong voice': ({
    written,
    struck,
    times,
    name,
  }: PairFacts & { times: number; name: string | undefined }) => ({
    text: `${capital(struck)} struck for ${written}, ${countOf(times, 'time')}${name && name !== written ? `: ${name}` : ''}.`,
    advice: opensHiHat(written, struck)
      ? 'Move the foot before the stroke, or set where the kit counts the hi-hat as open.'
      : 'Play only the move between these two, slowly.',
  }),

  'voice mapped': ({ written, struck }: PairFacts) => ({
    text: `Nearly every ${written} arrives as ${struck}.`,
    advice: "Look at the kit's note map first: this may be the map and not you.",
  }),

  bounces: ({ name, times, of }: ShareFacts) => ({
    text: `Bounces${name ? `, ${name}` : ''}: ${times} of ${countOf(of, 'stroke')}.`,
    detail: share(times, of, 'followed by one'),
    advice: 'Hold the stick after the stroke; if it is the pad, raise its retrigger time.',
  }),

  extras: ({ times, mostOn }: { times: number; mostOn: Voice | undefined }) => ({
    text: `${countOf(times, 'extra stroke')}${mostOn ? `, most on ${mostOn}` : ''}.`,
    advice: 'Strokes that this layer does not have: hear the layer, and play it slower.',
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
interface PairFacts {
  written: Voice;
  struck: Voice;
}

export type FindingCode = keyof typeof WORDING;
export type FactsOf<Code extends FindingCode> = Parameters<(typeof WORDING)[Code]>[0];

/** @example wording('drift', { ms: -18, bars: 8, isGrowing: false }).text // => 'Rushing: 18 ms over 8 bars.' */
export const wording = <Code extends FindingCode>(code: Code, facts: FactsOf<Code>): Sentence =>
  (WORDING[code] as (facts: FactsOf<Code>) => Sentence)(facts);

/** A limb that is apart bar after bar is described, not blamed: professionals' are, too (Fujii et al. 2011). */
function placed({ name, ms, isOwn, sure }: PlacingFacts, how = '') {
  const text = isOwn
    ? `${capital(name)} ${amount(ms, 'ms')} ${side(ms)}${how}.`
    : `${capital(name)} ${amount(ms, 'ms')} ${besideRest(ms)}${how}.`;
  return { text, detail: certain(sure, `ms ${besideRest(sure.interval.lower)}`) };
}

const besideRest = (ms: number) => (ms < 0 ? 'ahead of the rest' : 'behind the rest');

function certain({ strokes, bars, interval }: Certainty, unit: string): string {
  return `${countOf(strokes, 'stroke')} of ${countOf(bars, 'bar')}; ${between(interval, unit)}.`;
}

/** The share of all that would be played like this, not only of these. */
const share = (times: number, of: number, what: string): string => {
  const { lower, upper } = wilson(times, of)!;
  return `${times} of ${of} ${what}; ${between({ lower: 100 * lower, upper: 100 * upper }, '%')}.`;
};

/** Whole figures, or tenths where these are near each other; the smaller first, with signs only where these differ. */
function between({ lower, upper }: Interval, unit: string): string {
  const digits = upper - lower < 3 ? 1 : 0;
  const ends = upper <= 0 ? [-upper, -lower] : [lower, upper];
  const [from, to] = ends.map((end) => decimalText(end, digits));
  return `between ${from} and ${to} ${unit} with 95 % certainty`;
}

/** "Snare ghosts", "Ghosts", "Ghosts, position 3". */
function levelWords(level: Level, { name }: ShareFacts): string {
  if (name === undefined) return `${capital(level)}s`;
  return /^(position|notes of|strokes|off-beat)/.test(name)
    ? `${capital(level)}s, ${name}:`
    : `${capital(name)} ${level}s`;
}

/** Whole beats a minute, or tenths where these would be the same. */
function bpmApart(played: number, click: number): [string, string] {
  const digits = Math.round(played) === Math.round(click) ? 1 : 0;
  return [played.toFixed(digits), String(Number(click.toFixed(1)))];
}

const ratio = (value: number): string => String(Number(value.toFixed(1)));
const amount = (value: number, unit: string) =>
  `${Math.max(1, Math.round(Math.abs(value)))} ${unit}`;
const side = (value: number) => (value < 0 ? 'early' : 'late');
const opensHiHat = (a: Voice, b: Voice) =>
  [a, b].every((voice) => voice === 'hi-hat open' || voice === 'hi-hat closed');
