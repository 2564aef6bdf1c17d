import type { LiveStats } from '../live/live-stats';
import { isByHand, type Player } from '../take/player';
import type { TakeTrials } from '../take/take';
import type { Choices } from './choices';

/** A layer (1-based) that a person passed, and the tempo, beats a minute. */
export interface PassedTarget {
  readonly layer: number;
  readonly bpm: number;
}

/** What was passed in the take that is played, and how the gate looks at it. */
export class Passes {
  #passed: readonly PassedTarget[] = $state.raw([]);
  #justPassed: number | undefined = $state.raw();
  #trials: TakeTrials = {};
  #player: Player | undefined = $state.raw();

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

  /** Who plays the take, or played the last: of several, whoever is no person. */
  get player(): Player | undefined {
    return this.#player;
  }

  /** Another phrase is chosen. */
  clear(): void {
    this.#passed = [];
    this.#justPassed = undefined;
  }

  /** The take is in the log, which knows what it passed and can take it back. */
  kept(): void {
    this.#passed = [];
  }

  /** Another layer or tempo is chosen: what was passed is no news any more. */
  goOn(): void {
    this.#justPassed = undefined;
  }

  /** A take begins, after one that ended with the figures `before`. */
  begin(choices: Choices, player: Player, before: LiveStats | undefined): void {
    const { threshold, wrongPass } = choices;
    const isTheirs = isByHand(this.#player) && isByHand(player);
    const continues = isTheirs && before !== undefined && lacksOwnOnly(choices, before);
    this.#trials = { threshold, wrongPass, ...(continues && { continues }) };
    this.#player = player;
  }

  /** Who plays may be another in mid-take. */
  goOnWith(player: Player): void {
    if (isByHand(this.#player) && !isByHand(player)) this.#player = player;
  }

  /** The figures say that a layer is passed, which those before may have said already. */
  add({ layer, bpm }: LiveStats, before: LiveStats | undefined): void {
    if (before?.gate.passed && before.layer === layer && before.bpm === bpm) return;
    this.#passed = [...this.#passed, { layer, bpm }];
    this.#justPassed = layer;
  }

  /** A new trial begins, at integer microseconds from bar 1 beat 1. */
  beginTrial(nowUs: number): void {
    const { requestsUs = [] } = this.#trials;
    this.#trials = { ...this.#trials, requestsUs: [...requestsUs, nowUs] };
    this.#justPassed = undefined;
  }

  /** The pass of a trial, 1-based in the order of playing, does not count; 0 where none has begun, which passed nothing. */
  takeBack(number: number): void {
    if (number === 0) return;
    const { takenBack = [] } = this.#trials;
    this.#trials = { ...this.#trials, takenBack: [...takenBack, number] };
    this.#passed = this.#passed.filter(({ layer }) => layer !== this.#justPassed);
  }

  /** A bar, 1-based, does not count; that bar, 0 in the count-in, which the clock may have been set back to. */
  leaveOut(now: number): number {
    const bar = Math.max(0, now);
    const { leftOutBars = [] } = this.#trials;
    if (!leftOutBars.includes(bar))
      this.#trials = { ...this.#trials, leftOutBars: [...leftOutBars, bar] };
    return bar;
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
