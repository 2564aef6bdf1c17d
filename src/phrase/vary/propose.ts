import { gridAt } from '../grid';
import { isHand, LIMBS, type Limb } from '../limb';
import type { Phrase } from '../phrase';
import { isFootVoice } from '../playability/places';
import { timeline } from '../timeline';
import type { Voice } from '../voice';
import { writePhrase } from '../write-phrase';
import { offer, type Variation } from './offer';
import { vary, type Twist } from './vary';
import type { Varied } from './varied';

/** What a proposed variation has to keep to. */
export interface Constraints {
  /** No other limb plays. */
  readonly limbs?: readonly Limb[];
  /** No other voice sounds. */
  readonly voices?: readonly Voice[];
  /** See playability. */
  readonly highestDifficulty?: number;
  /** From the original, both ends included. */
  readonly distance?: readonly [number, number];
  /** The tempo at which it has to be playable; the phrase's own unless given. */
  readonly bpm?: number;
}

/** Tries for each variation wanted. Chosen, not measured: where so many miss, the constraints leave little. */
const TRIES = 20;

/** Voices that a limb is moved to when the constraints name none: those of the usual kit. */
const USUAL_VOICES: readonly Voice[] = [
  'snare',
  'high tom',
  'mid tom',
  'floor tom',
  'hi-hat closed',
  'ride',
  'ride bell',
  'crash',
  'bass drum',
  'hi-hat pedal',
];

/**
 * Up to `count` different variations of one or two twists within the constraints; fewer when they are hard to find.
 * `share` gives numbers from 0 up to but not including 1: the same numbers, the same variations.
 */
export function proposeVariations(
  phrase: Phrase,
  count: number,
  constraints: Constraints,
  share: () => number,
): readonly Variation[] {
  const found: Variation[] = [];
  if (!isPlayed(phrase)) return found;
  const known = new Set<string>();
  const firsts = new Map<string, Varied | undefined>();
  for (let tries = count * TRIES; tries > 0 && found.length < count; tries--) {
    const made = twisted(phrase, constraints, share, firsts);
    if (!made || !keepsTo(made.phrase, constraints)) continue;
    const text = writePhrase(made.phrase);
    if (known.has(text)) continue;
    known.add(text);
    const offered = offer(phrase, made, constraints.bpm);
    if (offered && isWithin(offered, constraints)) found.push(offered);
  }
  return found;
}

/** One twist or two; `firsts` keeps what single twists made, since there are few of them. */
function twisted(
  phrase: Phrase,
  constraints: Constraints,
  share: () => number,
  firsts: Map<string, Varied | undefined>,
): Varied | undefined {
  const twist = drawTwist(phrase, constraints, share);
  const key = JSON.stringify(twist);
  if (!firsts.has(key)) firsts.set(key, vary(phrase, twist));
  const first = firsts.get(key);
  if (!first || share() < 0.5 || !isPlayed(first.phrase)) return first;
  const next = drawTwist(first.phrase, constraints, share);
  if (next.kind === twist.kind) return first;
  const second = vary(first.phrase, next);
  return second && { phrase: second.phrase, sentence: `${first.sentence} ${second.sentence}` };
}

const isPlayed = (phrase: Phrase): boolean =>
  timeline(phrase, phrase.layers.length, 0, 1).notes.length > 0;

function drawTwist(phrase: Phrase, { limbs, voices }: Constraints, share: () => number): Twist {
  const whole = (from: number, to: number) => from + Math.floor(share() * (to - from + 1));
  const one = <T>(list: readonly T[]): T => list[whole(0, list.length - 1)]!;
  const { cycle, layers } = phrase;
  const played = (): Voice => one(timeline(phrase, layers.length, 0, 1).notes).voice;
  const voice = (isFoot: boolean): Voice => {
    const fitting = (voices ?? USUAL_VOICES).filter((each) => isFootVoice(each) === isFoot);
    return fitting.length > 0 ? one(fitting) : played();
  };
  switch (whole(1, 9)) {
    case 1:
      return { kind: 'rotate', by: whole(1, Math.max(1, cycle - 1)) };
    case 2:
      return { kind: 'displace', by: whole(1, Math.max(1, cycle - 1)) };
    case 3:
      return { kind: 'subdivision', subdivision: one([2, 3, 4, 5, 6, 8]) };
    case 4:
      return { kind: 'cycle', cycle: Math.max(1, cycle + one([-3, -2, -1, 1, 2, 3])) };
    case 5: {
      const from = played();
      return { kind: 'swap voices', voices: [from, voice(isFootVoice(from))] };
    }
    case 6:
      return { kind: 'mirror' };
    case 7:
      return gridAt(phrase, layers.length).subdivision <= 4 && share() < 0.3
        ? { kind: 'double strokes' }
        : { kind: 'thin out', keep: whole(1, cycle), limb: one(limbs ?? LIMBS) };
    case 8:
      return { kind: 'thin out', keep: whole(Math.ceil(cycle / 2), cycle) };
    default: {
      const limb = one(limbs ?? LIMBS);
      const to = voice(!isHand(limb));
      return share() < 0.5
        ? { kind: 'orchestrate', limb, voice: to }
        : { kind: 'orchestrate', limb, voice: to, level: one(['accent', 'tap', 'ghost'] as const) };
    }
  }
}

function keepsTo(phrase: Phrase, { limbs, voices }: Constraints): boolean {
  if (!limbs && !voices) return true;
  return timeline(phrase, phrase.layers.length).notes.every(
    ({ limb, voice }) => (limbs?.includes(limb) ?? true) && (voices?.includes(voice) ?? true),
  );
}

function isWithin(offered: Variation, constraints: Constraints): boolean {
  const [least, most] = constraints.distance ?? [0, Infinity];
  return (
    offered.distance >= least &&
    offered.distance <= most &&
    offered.difficulty <= (constraints.highestDifficulty ?? Infinity)
  );
}
