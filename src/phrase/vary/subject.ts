import type { LaidLayers } from '../laid-layers';
import { laidTimeline } from '../timeline';
import type { Voice } from '../voice';
import type { Made } from './varied';
import { twisted, type Twist } from './vary';

/** A phrase that is twisted in many ways; each way is worked out once. */
export class Subject implements Made {
  readonly laid: LaidLayers;
  readonly sentence: string;
  /** Whether it has been looked at, for whoever looks. */
  isTried = false;
  #voices: readonly Voice[] | undefined;
  readonly #twisted = new Map<string, Subject | undefined>();

  constructor({ laid, sentence }: Made) {
    this.laid = laid;
    this.sentence = sentence;
  }

  /** The voice of each note of the pickup and the first cycle. */
  get voices(): readonly Voice[] {
    this.#voices ??= laidTimeline(this.laid.whole, 0, 1).notes.map(({ voice }) => voice);
    return this.#voices;
  }

  /** Twisted once more, with one sentence more; undefined when the twist does not suit it. */
  twist(twist: Twist): Subject | undefined {
    const key = JSON.stringify(twist);
    if (!this.#twisted.has(key)) this.#twisted.set(key, this.#twist(twist));
    return this.#twisted.get(key);
  }

  /** The same for a twist that was not asked for before; what comes of it is not kept. */
  twistAnew(twist: Twist): Subject | undefined {
    const key = JSON.stringify(twist);
    if (this.#twisted.has(key)) return undefined;
    this.#twisted.set(key, undefined);
    return this.#twist(twist);
  }

  #twist(twist: Twist): Subject | undefined {
    const made = twisted(this.laid, twist);
    if (!made) return undefined;
    const sentence = this.sentence === '' ? made.sentence : `${this.sentence} ${made.sentence}`;
    return new Subject({ laid: made.laid, sentence });
  }
}
