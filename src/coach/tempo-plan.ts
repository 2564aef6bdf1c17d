import { countInWords, countOf, numberWord } from '../words/words';

/**
 * A tempo plan: which tempo comes next. The gate decides a step on, so that every tempo it leaves behind is one that was
 * passed; the share of cycles that pass decides a step back, since the share of right repetitions and not their number is
 * what holds (Duke, Simmons & Cash 2009, JRME 56:310-321).
 */
export interface TempoPlan {
  /** Beats a minute in the order of playing, one at least: the first is the start, the last the goal. */
  readonly tempi: readonly number[];
  /** Cycles that are looked at together, 1 or more. */
  readonly cycles: number;
  /** Looks in a row that have to fail for a step back, 1 or more. */
  readonly backAfter: number;
}

/** Why the tempo is what it is. */
export type PlanReason =
  | { readonly kind: 'begins' }
  | { readonly kind: 'on' }
  | { readonly kind: 'reached' }
  | ({ readonly kind: 'back' } & SeenCycles)
  | ({ readonly kind: 'stays' } & SeenCycles)
  | ({ readonly kind: 'stays at start' } & SeenCycles);

/** How many of the cycles passed. */
interface SeenCycles {
  readonly clean: number;
  readonly of: number;
}

/** Where a plan stands. */
export interface PlanState {
  /** 0-based place in the tempi. */
  readonly step: number;
  /** Cycles of the look that goes on, and how many of them passed. */
  readonly cycles: number;
  readonly clean: number;
  /** Looks in a row that failed. */
  readonly fails: number;
  readonly reason: PlanReason;
}

/** Of five cycles four have to pass. Chosen, not measured. */
const ENOUGH = { clean: 4, of: 5 } as const;

/** Where a plan begins: at a tempo that is one of its own, or else at its start. */
export const planAt = ({ tempi }: TempoPlan, bpm: number): PlanState =>
  stateAt(Math.max(0, tempi.indexOf(bpm)), { kind: 'begins' });

/** How many passes the goal is away, with its own; 0 once it is reached. */
export const passesToGoal = ({ tempi }: TempoPlan, { step, reason }: PlanState): number =>
  reason.kind === 'reached' ? 0 : tempi.length - step;

/**
 * Where a plan stands after one more cycle at its tempo. It stays at the goal once that is passed.
 *
 * @param isClean whether the cycle by itself passed
 * @param isPassed whether the gate lets the layer through at this tempo
 * @example planAfterCycle({ tempi: [88, 92], cycles: 5, backAfter: 1 }, planAt({ tempi: [88, 92], cycles: 5, backAfter: 1 }, 88), true, true).step // => 1
 */
export function planAfterCycle(
  plan: TempoPlan,
  state: PlanState,
  isClean: boolean,
  isPassed: boolean,
): PlanState {
  const { step, fails, reason } = state;
  if (reason.kind === 'reached') return state;
  if (isPassed)
    return step + 1 < plan.tempi.length
      ? stateAt(step + 1, { kind: 'on' })
      : stateAt(step, { kind: 'reached' });
  const cycles = state.cycles + 1;
  const clean = state.clean + (isClean ? 1 : 0);
  const faults = cycles - clean;
  const seen = { clean, of: cycles };
  if (faults <= faultsAllowed(plan.cycles))
    return cycles < plan.cycles
      ? { ...state, cycles, clean }
      : stateAt(step, { kind: 'stays', ...seen });
  if (fails + 1 < plan.backAfter)
    return { ...stateAt(step, { kind: 'stays', ...seen }), fails: fails + 1 };
  return step > 0
    ? stateAt(step - 1, { kind: 'back', ...seen })
    : stateAt(step, { kind: 'stays at start', ...seen });
}

/** Cycles of a look that may fail: one more and it is decided, however many are left. */
const faultsAllowed = (cycles: number): number =>
  cycles - Math.ceil((cycles * ENOUGH.clean) / ENOUGH.of);

const stateAt = (step: number, reason: PlanReason): PlanState => ({
  step,
  cycles: 0,
  clean: 0,
  fails: 0,
  reason,
});

/**
 * Why the tempo is what it is, in one sentence.
 *
 * @example planWords({ tempi: [88, 92], cycles: 5, backAfter: 1 }, { step: 0, cycles: 0, clean: 0, fails: 0, reason: { kind: 'back', clean: 2, of: 4 } }) // => 'Back to 88: two of four cycles passed.'
 */
export function planWords({ tempi, cycles }: TempoPlan, { step, reason }: PlanState): string {
  const bpm = tempi[step]!;
  const goal = tempi.at(-1)!;
  if (reason.kind === 'begins')
    return bpm === goal
      ? `Plan: ${bpm}, the goal.`
      : `Plan: ${bpm}, to ${goal} in ${countOf(tempi.length - 1 - step, 'step')}.`;
  if (reason.kind === 'on') return `On to ${bpm}: passed at ${tempi[step - 1]!}.`;
  if (reason.kind === 'reached') return `Goal reached: passed at ${bpm}.`;
  const { clean, of } = reason;
  const seen = `${clean === 0 ? 'none' : numberWord(clean)} of ${countInWords(of, 'cycle')} passed`;
  if (reason.kind === 'back') return `Back to ${bpm}: ${seen}.`;
  if (reason.kind === 'stays at start') return `Still ${bpm}, the start: ${seen}.`;
  // Clean enough to stay, and too few to be sure of.
  const isGood = of - clean <= faultsAllowed(cycles);
  return `Still ${bpm}: ${seen}${isGood ? ', the layer not yet' : ''}.`;
}
