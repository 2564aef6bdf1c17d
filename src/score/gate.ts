import type { Note } from '../phrase/model/note';
import { GATE_THRESHOLD, STRICTEST_THRESHOLD, WRONG_PASS, type GateOptions } from './gate-options';
import { faultShare, nextEvidence, type FaultShare } from './fault-share';
import { clamp } from '../time/whole';
import type { OwnLack, OwnNotes } from './own-notes';
import { wilson } from './statistics/wilson';

/**
 * The gate: when a layer is passed.
 *
 * A trial begins where the layer begins, where the tempo changes, where the target has waited for the player or brought
 * the player back, or where the player asks for a new one. The layer is passed at the first stroke of the trial at which both hold:
 *
 * - All notes: the sequential test of `fault-share.ts` between a share of notes as written of 5 points below the
 *   threshold and one of 5 points above it (a third of the room that is left above it, where that is less) has come to
 *   the certainty asked for. Extra strokes count as faults.
 * - Own notes, those that the layer itself added or changed: by the rule of `own-notes.ts`.
 *
 * What follows at the usual threshold of 0.85, from 10,000 players each who play 352 notes a minute for ten minutes
 * (`npm run -s claims` prints it for any seed); single faults, and faults in runs of two on average:
 *
 *     true share   passes in ten minutes   within 200 notes    half of those who pass, after
 *     0.75           0 %     0.1 %            0 %     0.1 %
 *     0.80         0.1 %     4 %            0.1 %     3 %       0.4 min   0.5 min
 *     0.85          52 %      83 %            7 %    23 %       1.8 min   1.3 min
 *     0.90         100 %     100 %           70 %    73 %       0.4 min   0.4 min
 *     0.95         100 %     100 %          100 %    98.6 %     0.2 min   0.2 min
 */

/** Points of 100 on both sides of the threshold between which the test does not care. */
export const INDIFFERENCE = 0.05;

/** What a trial has come to. */
export interface Gate {
  readonly passed: boolean;
  readonly threshold: number;
  readonly wrongPass: number;
  /** Share as written of the trial's notes, extra strokes counting against it, 0 to 1; undefined when nothing was due. */
  readonly asWritten: number | undefined;
  /** Lower end of the 95 % interval of that share, for one look at it; undefined when nothing was due. */
  readonly lowerBound: number | undefined;
  /** How much of the certainty asked for there is about all notes, 0 to 1. */
  readonly certainty: number;
  readonly notes: number;
  /** Notes as written. */
  readonly right: number;
  readonly extras: number;
  readonly cycles: number;
  /** What is still in the way, all notes before own ones; undefined once passed. */
  readonly bound: 'all notes' | 'own notes' | undefined;
  /** What the layer's own notes lack; undefined where they lack nothing, or it is passed. */
  readonly ownLack: OwnLack | undefined;
}

/**
 * A trial while it is played: what is settled is added in the order of time. Once passed it stays passed.
 *
 * @example new Trial(new OwnNotes({ pickup: 0, notes: true })).gate.passed // => false
 */
export class Trial {
  readonly #options: Pick<Gate, 'threshold' | 'wrongPass'>;
  readonly #test: FaultShare;
  readonly #own: OwnNotes;
  readonly #count: TrialCount;

  /** @throws RangeError when the threshold or the chance of a wrong pass is out of range. */
  constructor(
    own: OwnNotes,
    { threshold = GATE_THRESHOLD, wrongPass = WRONG_PASS, continues = false }: GateOptions = {},
    count: TrialCount = NOTHING_PLAYED,
  ) {
    if (!(threshold > 0 && threshold <= STRICTEST_THRESHOLD))
      throw new RangeError(
        `a threshold is above 0 and at most ${STRICTEST_THRESHOLD}, got ${threshold}`,
      );
    if (!(wrongPass > 0 && wrongPass < 1))
      throw new RangeError(`a chance of a wrong pass is above 0 and below 1, got ${wrongPass}`);
    this.#options = { threshold, wrongPass };
    const faults = 1 - threshold;
    const room = Math.min(INDIFFERENCE, faults / 3, threshold / 3);
    this.#test = faultShare(faults - room, faults + room);
    this.#own = own;
    this.#count = continues ? { ...count, evidence: this.#asked } : { ...count };
  }

  /** A note that is due while a layer (1-based) is played, as written or not. */
  add(note: Note, layer: number, isRight: boolean): void {
    const count = this.#count;
    if (note.layers.includes(layer)) this.#own.add(note, isRight);
    count.notes++;
    if (isRight) count.right++;
    if (note.cycle > 0 && note.cycle !== count.lastCycle) {
      count.cycles++;
      count.lastCycle = note.cycle;
    }
    this.#look(!isRight);
  }

  /** A stroke that answers nothing. */
  addExtra(): void {
    this.#count.extras++;
    this.#look(true);
  }

  #look(isFault: boolean): void {
    const count = this.#count;
    count.evidence = nextEvidence(count.evidence, isFault, this.#test);
    if (this.#lacksNothing) count.passed = true;
  }

  get #lacksNothing(): boolean {
    return this.#isCertain && this.#own.lack === undefined;
  }

  get #asked(): number {
    return -Math.log(this.#options.wrongPass);
  }

  get #isCertain(): boolean {
    return this.#count.evidence >= this.#asked;
  }

  /** Notes without a fault that are still needed about all notes. */
  get cleanNotesToPass(): number {
    return Math.max(0, Math.ceil((this.#asked - this.#count.evidence) / this.#test.gain));
  }

  get hasPassed(): boolean {
    return this.#count.passed;
  }

  get bound(): Gate['bound'] {
    if (this.#count.passed) return undefined;
    return this.#isCertain ? 'own notes' : 'all notes';
  }

  get gate(): Gate {
    const { notes, right, extras, cycles, evidence, passed } = this.#count;
    const counted = notes + extras;
    return {
      ...this.#options,
      passed,
      asWritten: counted > 0 ? right / counted : undefined,
      lowerBound: wilson(right, counted)?.lower,
      certainty: clamp(evidence / this.#asked, 0, 1),
      notes,
      right,
      extras,
      cycles,
      bound: this.bound,
      ownLack: passed ? undefined : this.#own.lack,
    };
  }

  /** A copy that goes on by itself. */
  fork(): Trial {
    return new Trial(this.#own.fork(), this.#options, this.#count);
  }

  /** A new trial of the same layer: of what was played so far only the pickup counts. */
  afresh(): Trial {
    return new Trial(this.#own.afresh(), this.#options);
  }

  /**
   * How many cycles without a fault are still needed, `cycle` of them (0 is the next) having these notes while a layer
   * (1-based) is played; 0 once passed, undefined where MOST_CYCLES of them do not pass, as where nothing sounds. A
   * pickup that was wrong comes with no cycle and is not waited for.
   */
  cleanCyclesToPass(layer: number, cycle: (ahead: number) => readonly Note[]): number | undefined {
    const ahead = new Trial(this.#own.withoutPickup(), this.#options, this.#count);
    for (let cycles = 0; cycles <= MOST_CYCLES; cycles++) {
      if (ahead.#count.passed || ahead.#lacksNothing) return cycles;
      for (const note of cycle(cycles)) ahead.add(note, layer, true);
    }
    return undefined;
  }
}

/** One note a cycle at the strictest takes twelve hundred after the worst there is. */
const MOST_CYCLES = 2000;

interface TrialCount {
  evidence: number;
  notes: number;
  right: number;
  extras: number;
  cycles: number;
  lastCycle: number;
  passed: boolean;
}

const NOTHING_PLAYED: TrialCount = {
  evidence: 0,
  notes: 0,
  right: 0,
  extras: 0,
  cycles: 0,
  lastCycle: 0,
  passed: false,
};
