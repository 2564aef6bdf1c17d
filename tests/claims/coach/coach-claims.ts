import { findings } from '../../../src/coach/findings';
import type { TimedNote } from '../../../src/match/timed-note';
import { wilson, type Interval } from '../../../src/score/statistics/wilson';
import { causesOf, nearlyAlike } from './causes';
import type { Fault, Variant } from './faults';
import { isNeutral, kindOf, names, type ReadFinding } from './naming';
import { boundariesFor, judgementOf, strokesOf, type Scatter } from './player';

/** How the coach fares with takes that have one fault, or none. */
export interface Tally {
  readonly takes: number;
  readonly named: number;
  /** As the first thing that is said. */
  readonly namedFirst: number;
  /** Takes of which something else is claimed. */
  readonly otherwise: number;
  /** Of which something is told as a fact that may be meant, where such facts are no claims. */
  readonly asFact: number;
  /** What was claimed otherwise, and how often. */
  readonly others: ReadonlyMap<string, number>;
  /** Takes of each phrase and place, and how many of them were told first and nothing else, or rightly not at all. */
  readonly byVariant: readonly VariantTally[];
}

export interface VariantTally {
  readonly name: string;
  readonly takes: number;
  readonly right: number;
}

/** `count` takes with a fault; each has the next seed. */
export function tally(
  { variants, mayBeNeutral = false }: Fault,
  scatter: Scatter,
  count: number,
  nextSeed: () => number,
): Tally {
  const others = new Map<string, number>();
  let named = 0;
  let namedFirst = 0;
  let otherwise = 0;
  let asFact = 0;
  const right = variants.map(() => 0);
  for (let take = 0; take < count; take++) {
    const which = take % variants.length;
    const all = claimsOf(variants[which]!, scatter, nextSeed());
    const said = all.filter(({ isFact }) => !(mayBeNeutral && isFact));
    if (said.length < all.length) asFact++;
    if (said.some(({ isSo }) => isSo)) named++;
    if (said[0]?.isSo === true) namedFirst++;
    const wrong = new Set(said.filter(({ isSo }) => !isSo).map(({ code }) => code));
    if (wrong.size > 0) otherwise++;
    const isToldFirst = variants[which]!.truths.length === 0 || said[0]?.isSo === true;
    if (wrong.size === 0 && isToldFirst) right[which]!++;
    for (const code of wrong) others.set(code, (others.get(code) ?? 0) + 1);
  }
  const byVariant = variants.map(({ piece, what }, i) => ({
    name: `${piece.name}, ${what}`,
    takes: Math.ceil((count - i) / variants.length),
    right: right[i]!,
  }));
  return { takes: count, named, namedFirst, otherwise, asFact, others, byVariant };
}

interface ReadClaim {
  readonly code: string;
  /** Whether it names the fault. */
  readonly isSo: boolean;
  /** Whether it is told as one that may be meant. */
  readonly isFact: boolean;
}

/** Every claim about one take, in order. */
function claimsOf(variant: Variant, scatter: Scatter, seed: number): ReadClaim[] {
  const { piece, bars, bend, truths } = variant;
  const judgement = judgementOf(piece, bars, strokesOf(piece, bars, bend, scatter, seed));
  const all: readonly ReadFinding[] = findings(piece.plan, judgement, boundariesFor(piece));
  return all
    .filter((one) => kindOf(one) !== undefined)
    .map((one) => ({
      code: one.code,
      isSo: names(one, truths, judgement.notes),
      isFact: isNeutral(one),
    }));
}

const SIDE = / (early|late)$/;

/** Phrases that hardly tell a fault from another cause, in words. */
export function hardToTell({ variants }: Fault): string[] {
  const lines = variants.flatMap(({ piece, bars, what, notes }) => {
    const due = piece.notes(bars);
    const touched: ReadonlySet<TimedNote> = new Set(due.filter((one) => notes.has(one)));
    const near = nearlyAlike(touched, causesOf(due, piece.subdivision, piece.layer), bars);
    const all = near.map(({ name, apart }) => `${name} (${apart} notes of ${touched.size})`);
    return all.length > 0 ? [`${piece.name}, ${what.replace(SIDE, '')}: ${all.join(', ')}`] : [];
  });
  return [...new Set(lines)];
}

export interface Aim {
  readonly first?: number;
  readonly others: number;
}

/**
 * What a row has to reach, as shares of the takes; undefined where its figures are only shown. Where limbs are apart, but by too
 * little to be at fault, other claims may be as many as beside a fault: they are of some of the notes that are off.
 */
export function aimOf(fault: Fault, { noise, sdMs }: Scatter): Aim | undefined {
  const { variants } = fault;
  const isNamed = variants.some(({ truths }) => truths.length > 0);
  if (!isNamed && variants.every(({ shiftMs }) => shiftMs === undefined))
    return { others: noise === 'white' ? 0.02 : 0.03 };
  if (fault.isScatter === true && noise !== 'white') return undefined;
  const usual = sdMs <= 8 ? { first: 0.97, others: 0.05 } : { first: 0.92, others: 0.08 };
  return isNamed ? { ...usual, first: fault.leastFirst ?? usual.first } : { others: usual.others };
}

export const shareOf = (times: number, takes: number): { share: number; interval: Interval } => ({
  share: takes === 0 ? 0 : times / takes,
  interval: wilson(times, takes) ?? { lower: 0, upper: 1 },
});
