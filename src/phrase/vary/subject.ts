import type { LaidLayers } from '../laid-layers';
import { laidTimeline } from '../timeline';
import type { Voice } from '../voice';
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
  readonly #twisted = new Map<string, Subject | undefined>();

  constructor(made: Made, from?: Subject) {
    this.laid = made.laid;
    this.sentence = from?.sentence ? `${from.sentence} ${made.sentence}` : made.sentence;
    this.#made = made;
    this.#below = from && made.laid.below === from.laid ? from : undefined;
  }

  /** The voice of each note of the pickup and the first cycle. */
  get voices(): readonly Voice[] {
    this.#voices ??= laidTimeline(this.laid.whole, 0, 1).notes.map(({ voice }) => voice);
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

function twistKey(twist: Twist): string {
  switch (twist.kind) {
    case 'rotate':
    case 'displace':
      return `${twist.kind} ${twist.by}`;
    case 'swap voices':
      return `${twist.kind} ${twist.voices.join()}`;
    case 'thin out':
      return `${twist.kind} ${twist.keep} ${twist.limb}`;
    case 'orchestrate':
      return `${twist.kind} ${twist.limb} ${twist.voice} ${twist.level}`;
    default:
      return JSON.stringify(twist);
  }
}
