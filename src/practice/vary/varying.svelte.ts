import { trustDraft } from '../../phrase/check/draft-check';
import type { Phrase } from '../../phrase/model/phrase';
import { tempoRange } from '../../phrase/model/tempo-range';
import { playability } from '../../phrase/playability/playability';
import { draftOf, type PhraseDraft } from '../../phrase/model/phrase-draft';
import type { VaryThread } from './vary-thread';
import type { Outcome, TwistJob, WeighedVariation } from '../../phrase/vary/outcome';
import type { Refusal } from '../../phrase/vary/refusal';
import {
  sentTwist,
  usualSettings,
  type TwistKind,
  type TwistSettings,
} from '../../phrase/vary/twist-settings';
import { clamp } from '../../time/whole';

/** A variation as it is shown: with its phrase read. */
export interface Variant extends WeighedVariation {
  readonly phrase: Phrase;
}

/** What the twist that is set comes to; neither while nothing can be tried. */
export interface ShownOutcome {
  readonly variant: Variant | undefined;
  readonly refused: Refusal | undefined;
}

const NOTHING: ShownOutcome = { variant: undefined, refused: undefined };

/** A twist taken, on the way from the original. */
export type Step = Pick<Variant, 'phrase' | 'sentence' | 'distance' | 'difficulty'>;

export interface VaryingParts {
  readonly phrase: Phrase;
  readonly weigh: VaryThread<TwistJob, Outcome>;
  /** A phrase of the library as it is written. */
  readonly draftFor: (id: string) => PhraseDraft | undefined;
  /** Where this phrase was left off, to go on from there. */
  readonly leftOff?: Pick<Varying, 'bpm' | 'kind' | 'settings' | 'steps'> | undefined;
  /** Told when another phrase is varied, or at another tempo. */
  readonly onMoved?: () => void;
}

/** Varying a phrase by hand, twist upon twist, at one tempo. */
export class Varying {
  readonly original: Phrase;
  readonly #parts: VaryingParts;
  #steps: readonly Step[] = $state.raw([]);
  #bpm: number = $state(0);
  #kind: TwistKind = $state('rotate');
  #settings: TwistSettings = $state.raw()!;
  #outcome: ShownOutcome = $state.raw(NOTHING);
  #isWeighing: boolean = $state(false);
  #problem: string | undefined = $state();
  readonly #base: Phrase = $derived.by(() => this.#steps.at(-1)?.phrase ?? this.original);
  readonly #originalDifficulty: number = $derived.by(
    () => playability(this.original, this.original.layers.length, this.#bpm).difficulty,
  );

  constructor(parts: VaryingParts) {
    this.#parts = parts;
    this.original = parts.phrase;
    const { bpm, kind, settings, steps } = parts.leftOff ?? {};
    this.#bpm = bpm ?? parts.phrase.tempoBpm;
    this.#kind = kind ?? 'rotate';
    this.#settings = settings ?? usualSettings(parts.phrase);
    this.#steps = steps ?? [];
    void this.#weigh();
  }

  /** What is varied now: the original, or what the last step made of it. */
  get base(): Phrase {
    return this.#base;
  }
  get steps(): readonly Step[] {
    return this.#steps;
  }
  /** At which everything is heard and has to be playable. */
  get bpm(): number {
    return this.#bpm;
  }
  get kind(): TwistKind {
    return this.#kind;
  }
  get settings(): TwistSettings {
    return this.#settings;
  }
  /** Of the twist that was set when it was last weighed, a moment ago. */
  get outcome(): ShownOutcome {
    return this.#outcome;
  }
  get isWeighing(): boolean {
    return this.#isWeighing;
  }
  /** Why nothing could be weighed, if so. */
  get problem(): string | undefined {
    return this.#problem;
  }

  /** See playability; of the original with all its layers on, at the tempo. */
  get originalDifficulty(): number {
    return this.#originalDifficulty;
  }

  chooseKind(kind: TwistKind): void {
    this.#kind = kind;
    void this.#weigh();
  }

  set(settings: Partial<TwistSettings>): void {
    this.#settings = { ...this.#settings, ...settings };
    void this.#weigh();
  }

  /** Only a tempo that a phrase can have. */
  setBpm(bpm: number): void {
    const { least, most } = tempoRange(this.original.meter, this.original.subdivision);
    this.#bpm = clamp(bpm, least, most);
    this.#moved();
  }

  /** Varies this from now on. */
  take({ phrase, sentence, distance, difficulty }: Step): void {
    this.#steps = [...this.#steps, { phrase, sentence, distance, difficulty }];
    this.#moveTo();
  }

  /** Goes back to what so many steps made; 0 is the original. */
  backTo(count: number): void {
    this.#steps = this.#steps.slice(0, count);
    this.#moveTo();
  }

  close(): void {
    this.#parts.weigh.close();
  }

  #moveTo(): void {
    const { withId } = this.#settings;
    this.#settings = { ...usualSettings(this.#base), withId };
    this.#outcome = NOTHING;
    this.#moved();
  }

  #moved(): void {
    this.#parts.onMoved?.();
    void this.#weigh();
  }

  async #weigh(): Promise<void> {
    const twist = sentTwist(this.#kind, this.#settings, this.#parts.draftFor);
    this.#problem = undefined;
    if (!twist) {
      if (this.#isWeighing) this.#parts.weigh.close();
      this.#isWeighing = false;
      this.#outcome = NOTHING;
      return;
    }
    this.#isWeighing = true;
    try {
      const answer = await this.#parts.weigh.ask({
        ask: 'twist',
        original: draftOf(this.original),
        base: draftOf(this.#base),
        twist,
        bpm: this.#bpm,
      });
      if (!answer) return;
      const { variation, refused } = answer;
      const variant = variation && { ...variation, phrase: trustDraft(variation.draft) };
      this.#outcome = { variant, refused };
    } catch {
      this.#outcome = NOTHING;
      this.#problem = 'This variation could not be worked out; choose another setting.';
    }
    this.#isWeighing = false;
  }
}
