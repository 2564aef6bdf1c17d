import type { Level } from '../phrase/model/level';
import { limbName, type Limb } from '../phrase/model/limb';
import type { Voice } from '../phrase/model/voice';
import { capital, countOf } from '../words/words';

/**
 * Every sentence the coach can say, in one place. `text` is read from the throne, so it is short; one
 * `advice` says what to do next. A steady offset is told as a fact: drummers can place every stroke
 * ahead of the click or behind it when asked to (Sioros, Câmara & Danielsen, abstract of "Mapping timing
 * strategies in drum performance"), so it may be meant.
 */
export interface Sentence {
  readonly text: string;
  readonly advice: string;
}

const WORDING = {
  'too little': () => ({
    text: 'Too few strokes to tell anything yet.',
    advice: 'Play two more cycles.',
  }),

  'nothing stands out': ({ spreadMs }: { spreadMs: number | undefined }) => ({
    text:
      spreadMs === undefined
        ? 'Nothing stands out.'
        : `Nothing stands out. Spread ${Math.round(spreadMs)} ms.`,
    advice: 'Watch the spread: keep it while the tempo goes up.',
  }),

  'lost place': ({
    partials,
    cycle,
    cycles,
  }: {
    partials: number;
    cycle: number;
    cycles: number;
  }) => ({
    text: `Slipped ${countOf(Math.abs(partials), 'partial')} ${side(partials)} at cycle ${cycle}, for ${countOf(cycles, 'cycle')}.`,
    advice: 'Count the beats aloud and listen for where the cycle meets the bar line.',
  }),

  'all strokes off': ({ ms }: { ms: number }) => ({
    text: `All strokes ${amount(ms, 'ms')} ${side(ms)}.`,
    advice:
      'The same on every limb: the rig or a habit. Measure the latency once; it may also be meant.',
  }),

  'limb off': ({ limb, ms }: { limb: Limb; ms: number }) => ({
    text: `${capital(limbName(limb))} ${amount(ms, 'ms')} ${side(ms)}.`,
    advice: `Unless it is meant, play the ${limbName(limb)} alone with the click, then with the rest.`,
  }),

  'limb apart': ({ limb, ms }: { limb: Limb; ms: number }) => ({
    text: `${capital(limbName(limb))} ${amount(ms, 'ms')} ${ms < 0 ? 'ahead of' : 'behind'} the rest.`,
    advice: `Unless it is meant, play the ${limbName(limb)} with one other limb until they sound as one.`,
  }),

  'limb uneven': ({ limb, ms, restMs }: { limb: Limb; ms: number; restMs: number }) => ({
    text: `${capital(limbName(limb))} spreads ${amount(ms, 'ms')}, the rest ${amount(restMs, 'ms')}.`,
    advice: `Slow down until the ${limbName(limb)} is as even as the rest.`,
  }),

  'wide spread': ({ ms, aimMs }: { ms: number; aimMs: number }) => ({
    text: `Spread ${amount(ms, 'ms')}.`,
    advice: `Slow down until it is under ${amount(aimMs, 'ms')}, then bring the tempo back.`,
  }),

  drift: ({ ms }: { ms: number }) => ({
    text: `${ms < 0 ? 'Rushing' : 'Dragging'}: ${amount(ms, 'ms')} over the take.`,
    advice: 'Count the subdivision aloud, the rests too.',
  }),

  'position off': ({ position, limb, ms }: SpotFacts & { ms: number }) => ({
    text: `Position ${position}, ${limbName(limb)}: ${amount(ms, 'ms')} ${side(ms)}.`,
    advice: `Loop the strokes around position ${position} slowly, and say that partial aloud.`,
  }),

  'position apart': ({ position, limb, ms }: SpotFacts & { ms: number }) => ({
    text: `Position ${position}: ${limbName(limb)} ${amount(ms, 'ms')} ${ms < 0 ? 'ahead of' : 'behind'} its others.`,
    advice: `Loop the strokes around position ${position} slowly, and say that partial aloud.`,
  }),

  'position missed': ({
    position,
    limb,
    missed,
    of,
  }: SpotFacts & { missed: number; of: number }) => ({
    text: `Position ${position}, ${limbName(limb)}: missed ${missed} of ${of}.`,
    advice: `Play up to position ${position} and stop on it, then go on over it.`,
  }),

  'limb missed': ({ limb, missed, of }: { limb: Limb; missed: number; of: number }) => ({
    text: `${capital(limbName(limb))} missed ${missed} of ${of}.`,
    advice: `Play the ${limbName(limb)} alone through the cycle, then add the rest. A pad may also not answer.`,
  }),

  'many missed': ({ missed, of }: { missed: number; of: number }) => ({
    text: `${missed} of ${countOf(of, 'note')} missed.`,
    advice: 'Slow down, or go back one layer.',
  }),

  'too loud': ({ voice, level, times, of, db }: LevelFacts) => ({
    text: `${capital(voice)} ${level}s too loud: ${times} of ${of}, by ${amount(db, 'dB')}.`,
    advice:
      level === 'ghost'
        ? 'Start the ghosts with the stick lower; leave the accents where they are.'
        : 'Keep these under the accents: the stick stays lower.',
  }),

  'too soft': ({ voice, level, times, of, db }: LevelFacts) => ({
    text: `${capital(voice)} ${level}s too soft: ${times} of ${of}, by ${amount(db, 'dB')}.`,
    advice:
      level === 'accent'
        ? 'Lift the stick before the accent; leave the ghosts low.'
        : 'Keep these clear of the ghosts: the stick starts higher.',
  }),

  'levels inverted': ({ db }: { db: number }) => ({
    text: `Ghosts ${amount(db, 'dB')} louder than the accents.`,
    advice: 'Play the accents alone through the cycle, then let the ghosts in.',
  }),

  'wrong voice': ({ written, struck, times }: PairFacts) => ({
    text: `${capital(struck)} struck for ${written}, ${countOf(times, 'time')}.`,
    advice: opensHiHat(written, struck)
      ? 'Move the foot before the stroke, or set where the kit counts the hi-hat as open.'
      : 'Play only the move between these two, slowly.',
  }),

  'voice mapped': ({ written, struck }: PairFacts) => ({
    text: `Nearly every ${written} arrives as ${struck}.`,
    advice: "Look at the kit's note map first: this may be the map and not you.",
  }),

  extras: ({ times, mostOn }: { times: number; mostOn: Voice | undefined }) => ({
    text: `${countOf(times, 'extra stroke')}${mostOn ? `, most on ${mostOn}` : ''}.`,
    advice:
      'Bounces, or strokes this layer does not have: let the stick come back, and listen for it.',
  }),
} satisfies Record<string, (facts: never) => Sentence>;

interface SpotFacts {
  position: number;
  limb: Limb;
}
interface LevelFacts {
  voice: Voice;
  level: Level;
  times: number;
  of: number;
  db: number;
}
interface PairFacts {
  written: Voice;
  struck: Voice;
  times: number;
}

export type FindingCode = keyof typeof WORDING;
export type FactsOf<Code extends FindingCode> = Parameters<(typeof WORDING)[Code]>[0];

/** @example wording('drift', { ms: -18 }).text // => 'Rushing: 18 ms over the take.' */
export const wording = <Code extends FindingCode>(code: Code, facts: FactsOf<Code>): Sentence =>
  (WORDING[code] as (facts: FactsOf<Code>) => Sentence)(facts);

const amount = (value: number, unit: string) =>
  `${Math.max(1, Math.round(Math.abs(value)))} ${unit}`;
const side = (value: number) => (value < 0 ? 'early' : 'late');
const opensHiHat = (a: Voice, b: Voice) =>
  [a, b].every((voice) => voice === 'hi-hat open' || voice === 'hi-hat closed');
