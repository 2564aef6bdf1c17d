import { trustDraft } from '../../phrase/check/draft-check';
import type { Limb } from '../../phrase/model/limb';
import { LIMBS } from '../../phrase/model/limb';
import type { Phrase } from '../../phrase/model/phrase';
import type { Constraints } from '../../phrase/vary/propose';
import type { Voice } from '../../phrase/model/voice';
import type { VaryThread } from './vary-thread';
import { draftOf, isSameDraft, type PhraseDraft } from '../../phrase/model/phrase-draft';
import type { Loosened, Proposals, ProposalsJob } from '../../phrase/vary/proposals';
import { twistFacts } from '../../phrase/vary/twist-facts';
import type { Variant } from './varying.svelte';

export interface ProposingParts {
  readonly original: Phrase;
  /** What is varied now. */
  readonly base: () => Phrase;
  readonly bpm: () => number;
  readonly propose: VaryThread<ProposalsJob, Proposals>;
  /** Where this phrase was left off, to go on from there. */
  readonly leftOff?: Pick<Proposing, 'seed' | 'limits'> | undefined;
}

/** What the player allows; undefined is no limit. */
export interface Limits {
  readonly limbs: readonly Limb[];
  readonly voices: readonly Voice[];
  readonly highestDifficulty?: number | undefined;
  readonly leastDistance?: number | undefined;
  readonly mostDistance?: number | undefined;
}

/** Proposals in a list. Chosen, not measured: as many as can be looked over. */
const COUNT = 8;
const FIRST_SEED = 1;
/** Seeds are words of 32 bits. */
export const HIGHEST_SEED = 2 ** 32 - 1;

/** The voices there are to tick: those of the usual kit. */
const USUAL: readonly Voice[] = [
  'crash',
  'hi-hat open',
  'hi-hat closed',
  'ride bell',
  'ride',
  'high tom',
  'mid tom',
  'side stick',
  'snare',
  'floor tom',
  'bass drum',
  'hi-hat pedal',
];

/** Variations drawn by chance from a seed, within limits. */
export class Proposing {
  readonly #parts: ProposingParts;
  /** Voices that can be allowed: the usual ones, and those of the phrase. */
  readonly voices: readonly Voice[];
  #limits: Limits = $state.raw()!;
  #seed: number = $state(FIRST_SEED);
  /** What the list below was drawn from. */
  #from: PhraseDraft | undefined;
  #found: readonly Variant[] = $state.raw([]);
  #loosened: readonly Loosened[] = $state.raw([]);
  #isDrawing: boolean = $state(false);
  #problem: string | undefined = $state();

  constructor(parts: ProposingParts) {
    this.#parts = parts;
    const own = twistFacts(parts.original).voices.filter((voice) => !USUAL.includes(voice));
    this.voices = [...USUAL, ...own];
    this.#seed = parts.leftOff?.seed ?? FIRST_SEED;
    this.#limits = parts.leftOff?.limits ?? this.#none;
    void this.draw();
  }

  get limits(): Limits {
    return this.#limits;
  }
  get seed(): number {
    return this.#seed;
  }
  /** Without those that a tempo set since the list was drawn is too fast for. */
  get found(): readonly Variant[] {
    const bpm = this.#parts.bpm();
    return this.#found.filter(({ upToBpm }) => upToBpm >= bpm);
  }
  /** Which limit to loosen when nothing was found. */
  get loosened(): readonly Loosened[] {
    return this.#loosened;
  }
  get isDrawing(): boolean {
    return this.#isDrawing;
  }
  /** Why nothing could be drawn, if so. */
  get problem(): string | undefined {
    return this.#problem;
  }

  get #none(): Limits {
    return {
      limbs: LIMBS,
      voices: this.voices,
      highestDifficulty: undefined,
      leastDistance: undefined,
      mostDistance: undefined,
    };
  }

  /** Allows everything again. */
  lift(): void {
    this.set(this.#none);
  }

  set(limits: Partial<Limits>): void {
    this.#limits = { ...this.#limits, ...limits };
    void this.draw();
  }

  /** Takes no notice of what is no seed: whole numbers from 0 on. */
  setSeed(seed: number): void {
    if (!Number.isInteger(seed) || seed < 0 || seed > HIGHEST_SEED) return;
    this.#seed = seed;
    void this.draw();
  }

  /** The list of the next seed. */
  others(): void {
    this.setSeed(this.#seed === HIGHEST_SEED ? 0 : this.#seed + 1);
  }

  /** Draws the list of this seed within these limits. */
  async draw(): Promise<void> {
    this.#isDrawing = true;
    this.#problem = undefined;
    const base = draftOf(this.#parts.base());
    if (!this.#from || !isSameDraft(base, this.#from)) this.#found = this.#loosened = [];
    this.#from = base;
    try {
      const answer = await this.#parts.propose.ask({
        ask: 'proposals',
        original: draftOf(this.#parts.original),
        base,
        count: COUNT,
        constraints: { ...constraintsOf(this.#limits, this.voices), bpm: this.#parts.bpm() },
        seed: this.#seed,
      });
      if (!answer) return;
      this.#found = answer.found.map((one) => ({ ...one, phrase: trustDraft(one.draft) }));
      this.#loosened = answer.loosened;
    } catch {
      this.#found = this.#loosened = [];
      this.#problem = 'No proposals could be worked out; try another seed.';
    }
    this.#isDrawing = false;
  }

  close(): void {
    this.#parts.propose.close();
  }
}

/** What the limits ask of the engine: nothing where everything is allowed. */
export function constraintsOf(limits: Limits, voices: readonly Voice[]): Constraints {
  const { highestDifficulty, leastDistance, mostDistance } = limits;
  const hasDistance = leastDistance !== undefined || mostDistance !== undefined;
  return {
    ...(limits.limbs.length < LIMBS.length && { limbs: [...limits.limbs] }),
    ...(limits.voices.length < voices.length && { voices: [...limits.voices] }),
    ...(highestDifficulty !== undefined && { highestDifficulty }),
    ...(hasDistance && { distance: [leastDistance ?? 0, mostDistance ?? Infinity] as const }),
  };
}
