import type { Level } from '../model/level';
import { isHand, LIMBS, type Limb } from '../model/limb';
import { isFootVoice } from '../playability/places';
import type { Voice } from '../model/voice';
import type { Draws } from './draws';
import type { Subject } from './subject';
import type { Twist } from './vary';

/** Voices that a limb is moved to when none are named: those of the usual kit. */
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

const SUBDIVISIONS = [2, 3, 4, 5, 6, 8] as const;
const CYCLE_CHANGES = [-3, -2, -1, 1, 2, 3] as const;
const DRAWN_LEVELS: readonly Level[] = ['accent', 'tap', 'ghost'];
/** Strokes are doubled up to so many partials in a beat. */
const MOST_DOUBLED = 4;

/** The twists that some limbs and voices leave for a subject: one by chance, or all of them. */
export class TwistRange {
  readonly #limbs: readonly Limb[];
  readonly #footVoices: readonly Voice[];
  readonly #handVoices: readonly Voice[];

  constructor(limbs: readonly Limb[] = LIMBS, voices: readonly Voice[] = USUAL_VOICES) {
    this.#limbs = limbs;
    this.#footVoices = voices.filter((voice) => isFootVoice(voice));
    this.#handVoices = voices.filter((voice) => !isFootVoice(voice));
  }

  /** The same numbers, the same twist. */
  draw({ stack, voices: sounding }: Subject, draws: Draws): Twist {
    const { cycle } = stack.phrase;
    switch (draws.whole(1, 9)) {
      case 1:
        return { kind: 'rotate', by: draws.whole(1, Math.max(1, cycle - 1)) };
      case 2:
        return { kind: 'displace', by: draws.whole(1, Math.max(1, cycle - 1)) };
      case 3:
        return { kind: 'subdivision', subdivision: draws.one(SUBDIVISIONS) };
      case 4:
        return { kind: 'cycle', cycle: Math.max(1, cycle + draws.one(CYCLE_CHANGES)) };
      case 5: {
        const from = draws.one(sounding);
        return {
          kind: 'swap voices',
          voices: [from, draws.one(this.#voices(isFootVoice(from), sounding))],
        };
      }
      case 6:
        return { kind: 'mirror' };
      case 7:
        return stack.grid.subdivision <= MOST_DOUBLED && draws.share() < 0.3
          ? { kind: 'double strokes' }
          : { kind: 'thin out', keep: draws.whole(1, cycle), limb: draws.one(this.#limbs) };
      case 8:
        return { kind: 'thin out', keep: draws.whole(Math.ceil(cycle / 2), cycle) };
      default: {
        const limb = draws.one(this.#limbs);
        const voice = draws.one(this.#voices(!isHand(limb), sounding));
        return draws.share() < 0.5
          ? { kind: 'orchestrate', limb, voice }
          : { kind: 'orchestrate', limb, voice, level: draws.one(DRAWN_LEVELS) };
      }
    }
  }

  /** Every twist that can be drawn. */
  all({ stack, voices: sounding }: Subject): readonly Twist[] {
    const { cycle } = stack.phrase;
    const counts = Array.from({ length: cycle }, (_, i) => i + 1);
    const distances = counts.slice(0, Math.max(1, cycle - 1));
    return [
      ...distances.flatMap((by): Twist[] => [
        { kind: 'rotate', by },
        { kind: 'displace', by },
      ]),
      ...SUBDIVISIONS.map((subdivision): Twist => ({ kind: 'subdivision', subdivision })),
      ...CYCLE_CHANGES.map((by): Twist => ({ kind: 'cycle', cycle: Math.max(1, cycle + by) })),
      ...[...new Set(sounding)].flatMap((from) =>
        this.#voices(isFootVoice(from), sounding).map((to): Twist => ({
          kind: 'swap voices',
          voices: [from, to],
        })),
      ),
      { kind: 'mirror' },
      ...(stack.grid.subdivision <= MOST_DOUBLED ? [{ kind: 'double strokes' } as const] : []),
      ...counts.flatMap((keep): Twist[] => [
        ...(2 * keep >= cycle ? [{ kind: 'thin out', keep } as const] : []),
        ...this.#limbs.map((limb) => ({ kind: 'thin out', keep, limb }) as const),
      ]),
      ...this.#limbs.flatMap((limb) =>
        this.#voices(!isHand(limb), sounding).flatMap((voice): Twist[] => [
          { kind: 'orchestrate', limb, voice },
          ...DRAWN_LEVELS.map((level) => ({ kind: 'orchestrate', limb, voice, level }) as const),
        ]),
      ),
    ];
  }

  /** Voices for a foot or a hand; those that sound already where none are left. */
  #voices(isFoot: boolean, sounding: readonly Voice[]): readonly Voice[] {
    const fitting = isFoot ? this.#footVoices : this.#handVoices;
    return fitting.length > 0 ? fitting : sounding;
  }
}
