// What the gate asks for. Apart from the gate, since the page knows it before anything is played.

/** Chosen, not measured: about one fault in seven is what "it sits" still leaves room for. */
export const GATE_THRESHOLD = 0.85;
/** Chosen, not measured: 0.97 already takes 313 faultless notes. */
export const STRICTEST_THRESHOLD = 0.97;

/**
 * How often a trial of single faults may let a player 5 points below the threshold through, by Wald's bound. Chosen by
 * simulation, with LEEWAY (`fault-share.ts`). Less takes longer: 55 notes without a fault at 0.04, 28 at 0.2, 90 at 0.005.
 */
export const WRONG_PASS = 0.04;

export interface GateOptions {
  /** Above 0, up to STRICTEST_THRESHOLD. */
  readonly threshold?: number | undefined;
  /** How often a player 5 points below it may be let through, above 0 and below 1. */
  readonly wrongPass?: number | undefined;
  /** Whether it goes on with the trial of the take before, which lacked own notes only: a pickup comes once a start. */
  readonly continues?: boolean | undefined;
}
