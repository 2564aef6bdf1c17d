import type { LiveStats } from '../live/live-stats';
import type { TakeTrials } from '../take/take';
import type { Choices } from './choices';

/** A layer (1-based) that a person passed, and the tempo, beats a minute. */
export interface PassedTarget {
  readonly layer: number;
  readonly bpm: number;
}

/** What was passed since a phrase was chosen, and how the gate looks at the take that is played. */
export class Passes {
  #passed: readonly PassedTarget[] = $state.raw([]);
  #justPassed: number | undefined = $state.raw();
  #trials: TakeTrials = {};

  get passed(): readonly PassedTarget[] {
    return this.#passed;
  }
  /** The layer passed last, as long as nothing else was chosen. */
  get justPassed(): number | undefined {
    return this.#justPassed;
  }
  /** How the gate looks at the take. */
  get trials(): TakeTrials {
    return this.#trials;
  }

  /** Another phrase is chosen. */
  clear(): void {
    this.#passed = [];
    this.#justPassed = undefined;
  }

  /** Another layer or tempo is chosen: what was passed is no news any more. */
  goOn(): void {
    this.#justPassed = undefined;
  }

  /** A take begins, after one that ended with the figures `before`. */
  begin(choices: Choices, before: LiveStats | undefined): void {
    const { threshold, wrongPass } = choices;
    const continues = before !== undefined && lacksOwnOnly(choices, before);
    this.#trials = { threshold, wrongPass, ...(continues && { continues }) };
  }

  add({ layer, bpm }: PassedTarget): void {
    this.#passed = [...this.#passed, { layer, bpm }];
    this.#justPassed = layer;
  }

  /** A new trial begins, at integer microseconds from bar 1 beat 1. */
  beginTrial(nowUs: number): void {
    const { requestsUs = [] } = this.#trials;
    this.#trials = { ...this.#trials, requestsUs: [...requestsUs, nowUs] };
    this.#justPassed = undefined;
  }

  /** The pass of a trial, 1-based in the order of playing, does not count. */
  takeBack(number: number): void {
    const { takenBack = [] } = this.#trials;
    this.#trials = { ...this.#trials, takenBack: [...takenBack, number] };
    this.#passed = this.#passed.filter(({ layer }) => layer !== this.#justPassed);
  }

  /** A bar, 1-based, does not count. */
  leaveOut(bar: number): void {
    const { leftOutBars = [] } = this.#trials;
    if (!leftOutBars.includes(bar))
      this.#trials = { ...this.#trials, leftOutBars: [...leftOutBars, bar] };
  }
}

/** Whether the trial that the last take ended with lacks nothing but what a start like this one may bring. */
function lacksOwnOnly(choices: Choices, { gate, layer, bpm }: LiveStats): boolean {
  return (
    gate.bound === 'own notes' &&
    layer === choices.layer &&
    bpm === choices.tempoBpm &&
    gate.threshold === choices.threshold &&
    gate.wrongPass === choices.wrongPass
  );
}
