import { LaidLayers } from '../laid-layers';
import type { Level } from '../level';
import { isHand, LIMBS, type Limb } from '../limb';
import type { Phrase } from '../phrase';
import { isFootVoice } from '../playability/places';
import { laidTimeline } from '../timeline';
import type { Voice } from '../voice';
import { offers, type Variation } from './offer';
import { PhraseNumbers } from './phrase-numbers';
import { Subject } from './subject';
import type { Twist } from './vary';

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

const DRAWN_LEVELS: readonly Level[] = ['accent', 'tap', 'ghost'];

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
  const original = new Subject({ laid: new LaidLayers(phrase), sentence: '' });
  if (original.voices.length === 0) return found;
  const known = new Set<number>();
  const offered = offers(original.laid, constraints.bpm);
  const numbers = new PhraseNumbers();
  const draw = new TwistDraw(constraints, share);
  for (let tries = count * TRIES; tries > 0 && found.length < count; tries--) {
    const drawn = draw.varied(original);
    if (!drawn || drawn.isTried) continue;
    drawn.isTried = true;
    if (!keepsTo(drawn.laid, constraints)) continue;
    const number = numbers.of(drawn.laid);
    if (known.has(number)) continue;
    known.add(number);
    const variation = offered(drawn);
    if (variation && isWithin(variation, constraints)) found.push(variation);
  }
  return found;
}

/** Draws twists within constraints; the same numbers, the same twists. */
class TwistDraw {
  readonly #limbs: readonly Limb[];
  readonly #footVoices: readonly Voice[];
  readonly #handVoices: readonly Voice[];
  readonly #share: () => number;

  constructor({ limbs = LIMBS, voices = USUAL_VOICES }: Constraints, share: () => number) {
    this.#limbs = limbs;
    this.#footVoices = voices.filter((voice) => isFootVoice(voice));
    this.#handVoices = voices.filter((voice) => !isFootVoice(voice));
    this.#share = share;
  }

  /** One twist or two. */
  varied(original: Subject): Subject | undefined {
    const twist = this.#twist(original);
    const first = original.twist(twist);
    if (!first || this.#share() < 0.5 || first.voices.length === 0) return first;
    const next = this.#twist(first);
    return next.kind === twist.kind ? first : first.twistAnew(next);
  }

  #twist({ laid, voices: sounding }: Subject): Twist {
    const { cycle } = laid.phrase;
    switch (this.#whole(1, 9)) {
      case 1:
        return { kind: 'rotate', by: this.#whole(1, Math.max(1, cycle - 1)) };
      case 2:
        return { kind: 'displace', by: this.#whole(1, Math.max(1, cycle - 1)) };
      case 3:
        return { kind: 'subdivision', subdivision: this.#one([2, 3, 4, 5, 6, 8]) };
      case 4:
        return { kind: 'cycle', cycle: Math.max(1, cycle + this.#one([-3, -2, -1, 1, 2, 3])) };
      case 5: {
        const from = this.#one(sounding);
        return { kind: 'swap voices', voices: [from, this.#voice(isFootVoice(from), sounding)] };
      }
      case 6:
        return { kind: 'mirror' };
      case 7:
        return laid.grid.subdivision <= 4 && this.#share() < 0.3
          ? { kind: 'double strokes' }
          : { kind: 'thin out', keep: this.#whole(1, cycle), limb: this.#one(this.#limbs) };
      case 8:
        return { kind: 'thin out', keep: this.#whole(Math.ceil(cycle / 2), cycle) };
      default: {
        const limb = this.#one(this.#limbs);
        const voice = this.#voice(!isHand(limb), sounding);
        return this.#share() < 0.5
          ? { kind: 'orchestrate', limb, voice }
          : { kind: 'orchestrate', limb, voice, level: this.#one(DRAWN_LEVELS) };
      }
    }
  }

  #whole(from: number, to: number): number {
    return from + Math.floor(this.#share() * (to - from + 1));
  }

  #one<T>(list: readonly T[]): T {
    return list[this.#whole(0, list.length - 1)]!;
  }

  /** A voice for a foot or a hand; one that sounds already where the constraints leave none. */
  #voice(isFoot: boolean, sounding: readonly Voice[]): Voice {
    const fitting = isFoot ? this.#footVoices : this.#handVoices;
    return this.#one(fitting.length > 0 ? fitting : sounding);
  }
}

function keepsTo(laid: LaidLayers, { limbs, voices }: Constraints): boolean {
  if (!limbs && !voices) return true;
  return laidTimeline(laid).notes.every(
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
