import { planAfterCycle, planAt, type PlanState, type TempoPlan } from '../coach/tempo-plan';
import { tempoSteps } from '../coach/tempo-steps';
import type { LiveStats } from '../live/live-stats';
import type { Phrase } from '../phrase/model/phrase';
import type { Choices } from './choices';
import { practicable } from './practicable';

/** A plan and where it stands. */
export interface PlanInHand {
  readonly plan: TempoPlan;
  readonly state: PlanState;
}

/** The plan that the player has chosen, with tempi that a phrase can have; undefined where none is. */
export function tempoPlanOf(
  { tempoPlan }: Pick<Choices, 'tempoPlan'>,
  phrase: Phrase | undefined,
): TempoPlan | undefined {
  const { shape, list, cycles, backAfter } = tempoPlan;
  if (shape === 'off') return undefined;
  const growBy = tempoPlan.growBy * GROWTH[shape];
  const tempi = (shape === 'list' ? list : tempoSteps({ ...tempoPlan, growBy })).map((bpm) =>
    practicable(bpm, phrase),
  );
  return { tempi: tempi.filter((bpm, i) => bpm !== tempi[i - 1]), cycles, backAfter };
}

const GROWTH = { even: 0, growing: 1, shrinking: -1, list: 0 } as const;

/** The tempo plan of a take: follows its cycles and says which tempo is next. Nothing here happens at a stroke. */
export class TempoPlanning {
  readonly #phrase: Phrase;
  #now: PlanInHand | undefined = $state.raw();
  #layer = 0;

  readonly #choose: (bpm: number) => void;

  /** @param choose takes the tempo that is next */
  constructor(phrase: Phrase, choose: (bpm: number) => void) {
    this.#phrase = phrase;
    this.#choose = choose;
  }

  /** Undefined where no plan is chosen, and while a tempo is played that is not of it. */
  get now(): PlanInHand | undefined {
    return this.#now;
  }

  /** Whether the goal is still ahead. */
  get isUnderway(): boolean {
    return this.#now !== undefined && this.#now.state.reason.kind !== 'reached';
  }

  /** What is chosen to begin once more. */
  get again(): Partial<Pick<Choices, 'tempoBpm'>> {
    const start = this.#now?.plan.tempi[0];
    return start === undefined ? {} : { tempoBpm: start };
  }

  /** A take of a layer, or of an exercise's, begins: the tempo that it begins at. */
  begin(choices: Choices, layer: number): number {
    const plan = tempoPlanOf(choices, this.#phrase);
    this.#layer = layer;
    this.#now = plan && { plan, state: planAt(plan, choices.tempoBpm) };
    return this.#bpm ?? choices.tempoBpm;
  }

  /** Another layer or tempo is chosen, by the player or by the plan. */
  follow(choices: Choices, layer: number): void {
    if (layer === this.#layer && choices.tempoBpm === this.#bpm) return;
    this.begin(choices, layer);
    if (this.#bpm !== choices.tempoBpm) this.#now = undefined;
  }

  /**
   * A cycle is over, and another tempo may be next.
   *
   * @param share of the cycle as written; undefined where it does not count
   */
  afterCycle(stats: LiveStats, share: number | undefined): void {
    const bpm = this.#bpm;
    const isPassed = hasPassed(stats);
    if (!this.#now || (share === undefined && !isPassed)) return;
    if (stats.bpm !== bpm || stats.layer !== this.#layer) return;
    const { plan, state } = this.#now;
    const { threshold } = stats.gate;
    const isClean = share !== undefined && share >= threshold;
    this.#now = { plan, state: planAfterCycle(plan, state, isClean, isPassed) };
    if (this.#bpm !== undefined && this.#bpm !== bpm) this.#choose(this.#bpm);
  }

  get #bpm(): number | undefined {
    return this.#now && this.#now.plan.tempi[this.#now.state.step];
  }
}

/** A pickup comes once a start: who goes on cannot make up for it. */
const hasPassed = ({ gate }: LiveStats): boolean =>
  gate.passed ||
  (gate.bound === 'own notes' &&
    gate.ownLack?.notes === undefined &&
    gate.ownLack?.positions.length === 0);
