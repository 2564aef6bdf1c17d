import type { LaidLayers } from '../layers/laid-layers';
import { LEVELS } from '../model/level';
import { LIMBS, type Limb } from '../model/limb';
import type { Phrase } from '../model/phrase';
import { laidTimeline } from '../layers/timeline';
import { VOICES, voiceNumber, type Voice } from '../model/voice';
import type { Made } from './varied';
import { twistedAbove } from './twist-above';
import { twisted, type Twist } from './vary';

/** A phrase that is twisted in many ways; each way is worked out once. */
export class Subject implements Made {
  readonly laid: LaidLayers;
  readonly sentence: string;
  /** Whether it has been looked at, for whoever looks. */
  isTried = false;
  #voices: readonly Voice[] | undefined;
  /** The last twist alone. */
  readonly #made: Made;
  /** What it was made from, if by laying one layer on. */
  readonly #below: Subject | undefined;
  readonly #twisted = new Map<number | Phrase, Subject | undefined>();

  constructor(made: Made, from?: Subject) {
    this.laid = made.laid;
    this.sentence = from?.sentence ? `${from.sentence} ${made.sentence}` : made.sentence;
    this.#made = made;
    this.#below = from && made.laid.below === from.laid ? from : undefined;
  }

  /** The voice of each note of the pickup and the first cycle. */
  get voices(): readonly Voice[] {
    this.#voices ??= laidTimeline(this.laid, 0, 1).notes.map(({ voice }) => voice);
    return this.#voices;
  }

  /** Twisted once more, with one sentence more; undefined when the twist does not suit it. */
  twist(twist: Twist): Subject | undefined {
    const key = twistKey(twist);
    const known = this.#twisted.get(key);
    if (known || this.#twisted.has(key)) return known;
    const subject = this.#twist(twist);
    this.#twisted.set(key, subject);
    return subject;
  }

  /** The same for a twist that was not asked for before; what comes of it is not kept. */
  twistAnew(twist: Twist): Subject | undefined {
    const key = twistKey(twist);
    if (this.#twisted.has(key)) return undefined;
    this.#twisted.set(key, undefined);
    return this.#twist(twist);
  }

  #twist(twist: Twist): Subject | undefined {
    const below = this.#below;
    const made = below
      ? twistedAbove(this.laid, twist, (same) => below.#madeBy(same))
      : twisted(this.laid, twist);
    return made && new Subject(made, this);
  }

  #madeBy(twist: Twist): Made | undefined {
    const subject = this.twist(twist);
    return subject && subject.#made;
  }
}

/** What tells a twist from all others of a phrase: a number, or the phrase that is merged. */
function twistKey(twist: Twist): number | Phrase {
  switch (twist.kind) {
    case 'merge':
      return twist.with;
    case 'rotate':
      return numbered(0, twist.by);
    case 'displace':
      return numbered(1, twist.by);
    case 'subdivision':
      return numbered(2, twist.subdivision);
    case 'cycle':
      return numbered(3, twist.cycle);
    case 'mirror':
      return numbered(4, 0);
    case 'double strokes':
      return numbered(5, 0);
    case 'swap voices': {
      const [one, other] = twist.voices;
      return numbered(6, voiceNumber(one) * VOICES.length + voiceNumber(other));
    }
    case 'thin out':
      return numbered(7, twist.keep * (LIMBS.length + 1) + limbNumber(twist.limb));
    case 'orchestrate': {
      const { limb, voice, level } = twist;
      const levelNumber = level === undefined ? LEVELS.length : LEVELS.indexOf(level);
      const which = limbNumber(limb) * (LEVELS.length + 1) + levelNumber;
      return numbered(8, which * VOICES.length + voiceNumber(voice));
    }
  }
}

const KINDS = 9;
const numbered = (kind: number, which: number): number => which * KINDS + kind;
const limbNumber = (limb: Limb | undefined): number =>
  limb === undefined ? LIMBS.length : LIMBS.indexOf(limb);
