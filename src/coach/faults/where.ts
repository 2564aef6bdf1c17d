import { probit } from 'simple-statistics';
import { wilson } from '../../score/statistics/wilson';
import type { Cause, CauseKind } from '../evidence/causes';
import type { Evidence } from '../evidence/evidence';

/** What happens to notes of one cause, or to all that could have it. */
export interface Where {
  /** Undefined for all of them. */
  readonly cause: Cause | undefined;
  readonly times: number;
  readonly of: number;
  /** Indices of those to which it happened, ascending. */
  readonly notes: readonly number[];
  /** Of all to which it could, ascending. */
  readonly group: readonly number[];
}

/** Notes that a share needs before it is told. Chosen, not measured. */
export const LEAST_EVIDENCE = 8;
/** Times that something must have happened before it is told. Chosen, not measured. */
export const MIN_TIMES = 3;
/** Causes that the error rate is meant for: 2 % of them are a chance of 0.0005 each, 3.48 standard errors. Chosen, not measured. */
const CAUSES = 40;
const MOST_CAUSES = 3;
/** Of causes that explain alike, what a player looks at first: what is struck, and with what. */
const KINDS: readonly CauseKind[] = [
  'voice',
  'limb',
  'level',
  'layer',
  'position',
  'transition',
  'unison',
  'partial',
  'swing',
];

/** Whether `times` of `of` is surely above `share`: by the Wilson lower bound, and not a handful. */
export const surelyAbove = (share: number, times: number, of: number): boolean =>
  times >= MIN_TIMES && of >= LEAST_EVIDENCE && wilson(times, of)!.lower > share;

/**
 * Where something happens: the cause whose notes it happens to so much oftener than to the rest that it gains most
 * likelihood, then the next among the other notes; and all that is left, where that is surely above a share.
 *
 * @param could indices of the notes that it can happen to
 * @param usual share of them from which it is told where no cause explains it, 0 to 1
 */
export function whereOf(
  { classes, errorRate }: Pick<Evidence, 'classes' | 'errorRate'>,
  could: readonly number[],
  happens: (at: number) => boolean,
  usual: number,
): Where[] {
  const places: Where[] = [];
  const left = new Set(could);
  let total = countIn(could, happens);
  if (total < MIN_TIMES) return places;
  const candidates = classes
    .flatMap(({ causes, opposite }) => [...causes, ...opposite])
    .sort((a, b) => KINDS.indexOf(a.kind) - KINDS.indexOf(b.kind));
  // χ² of one degree.
  const leastGain = probit(errorRate / CAUSES / 2) ** 2;
  for (let step = 0; step < MOST_CAUSES && total >= MIN_TIMES; step++) {
    let best: { cause: Cause; inside: number[]; times: number; gain: number } | undefined;
    for (const cause of candidates) {
      const inside = cause.notes.filter((at) => left.has(at));
      const times = inside.filter(happens).length;
      const [others, otherTimes] = [left.size - inside.length, total - times];
      if (others === 0 || !isSurelyOftener(times, inside.length, otherTimes, others)) continue;
      const gain = gainOf(times, inside.length, otherTimes, others);
      if (gain > (best?.gain ?? leastGain)) best = { cause, inside, times, gain };
    }
    if (!best) break;
    const { cause, inside, times } = best;
    places.push({ cause, times, of: inside.length, notes: inside.filter(happens), group: inside });
    for (const at of inside) left.delete(at);
    total -= times;
  }
  if (surelyAbove(usual, total, left.size))
    places.push({
      cause: undefined,
      times: total,
      of: left.size,
      notes: [...left].filter(happens),
      group: [...left],
    });
  return places;
}

/** The interval of the one share lies wholly above that of the other. */
function isSurelyOftener(times: number, of: number, otherTimes: number, others: number): boolean {
  const usual = wilson(otherTimes, others);
  return usual !== undefined && surelyAbove(usual.upper, times, of);
}

/** Twice the log of the likelihood ratio of two shares to one (Wilks 1938). */
const gainOf = (a: number, ofA: number, b: number, ofB: number): number =>
  2 * (logLikelihood(a, ofA) + logLikelihood(b, ofB) - logLikelihood(a + b, ofA + ofB));

function logLikelihood(times: number, of: number): number {
  const part = (count: number) => (count === 0 ? 0 : count * Math.log(count / of));
  return part(times) + part(of - times);
}

function countIn(places: Iterable<number>, happens: (at: number) => boolean): number {
  let count = 0;
  for (const at of places) if (happens(at)) count++;
  return count;
}
