import type { Kit } from '../kit/kit';
import type { Plan } from '../match/plan';
import type { TimedNote } from '../match/timed-note';

/**
 * Where raw channel messages go: time in milliseconds on the performance clock, then the bytes.
 * Called on the live path, so it must not allocate, store or wait.
 */
export type StrokeSink = (timeMs: number, status: number, data1: number, data2: number) => void;

/** What a source is doing, for the screen: a sentence, and what the player can do about it. */
export interface SourceState {
  readonly kind: string;
  readonly sentence: string;
  /** Empty when there is nothing to do. */
  readonly remedy: string;
}

/** What players who play by themselves play to: a take, or a capture. */
export interface PlayedTo {
  /** Performance time, ms, of bar 1 beat 1. */
  readonly originMs: number;
  /** Integer microseconds from bar 1 beat 1. */
  nowUs(): number;
  /** The notes to play, in time order, as far as they are laid out; more follow. */
  readonly timeline: { readonly notes: readonly TimedNote[]; readonly plan: Plan };
}

/** Anything strokes come from: the kit, the computer keyboard, pads on the screen, a file, a simulated player. */
export interface StrokeSource {
  readonly name: string;
  /** The kit its notes are written for; undefined when that is the player's own. */
  readonly kit: Kit | undefined;
  readonly state: SourceState;
  /** Messages go to `sink` from now on, in place of any sink before. */
  start(sink: StrokeSink): void;
  stop(): void;
  /** Plays to a take from now on, until the stop: what a file and the simulated player can. */
  playTo?(target: PlayedTo): void;
  /** Calls `onChange` whenever `state` changed, until the returned function is called. */
  subscribe(onChange: () => void): () => void;
}
