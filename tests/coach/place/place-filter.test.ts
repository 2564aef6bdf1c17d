import { describe, expect, it } from 'vitest';
import { PlaceFilter } from '../../../src/coach/place/place-filter';
import { chance } from '../../../src/time/chance';
import { runCount } from '../../run-count';

/** The forward algorithm as the textbook writes it, with a whole matrix of changes (Rabiner 1989, equations 19 to 21). */
function forward(
  pattern: readonly number[],
  change: number,
  heard: readonly { readonly values: readonly number[]; readonly otherwise: number }[],
): number[] {
  const { length } = pattern;
  const prior = [0.5, ...Array<number>(length - 1).fill(0.3 / (length - 1)), 0.2];
  const matrix = prior.map((_, from) =>
    prior.map((share, to) => change * share + (from === to ? 1 - change : 0)),
  );
  return heard.reduce((state, { values, otherwise }, i) => {
    const next = prior.map((_, to) => {
      const reached = state.reduce((sum, share, from) => sum + share * matrix[from]![to]!, 0);
      const written = pattern[(((i - to) % length) + length) % length]!;
      return reached * (to === length ? otherwise : values[written]!);
    });
    const sum = next.reduce((a, b) => a + b, 0);
    return next.map((share) => share / sum);
  }, prior);
}

describe('the filter over all places', () => {
  it('lawForward: is the forward algorithm', () => {
    const { next, share } = chance(11);
    for (let run = 0; run < runCount(60); run++) {
      const symbols = 2 + (next() % 3);
      const pattern = Array.from({ length: 2 + (next() % 14) }, () => next() % symbols);
      const change = share() / 50;
      const heard = Array.from({ length: 1 + (next() % 40) }, () => ({
        values: Array.from({ length: symbols }, () => 0.02 + share()),
        otherwise: 0.02 + share(),
      }));
      const filter = new PlaceFilter(Uint8Array.from(pattern), change);
      heard.forEach(({ values, otherwise }, i) =>
        filter.hear(i, Float64Array.from(values), otherwise),
      );
      forward(pattern, change, heard).forEach((expected, state) =>
        expect(filter.posterior[state]).toBeCloseTo(expected, 10),
      );
    }
  });

  it('lawTurn: to be turned by one is to have heard all of it one partial on', () => {
    const { next, share } = chance(12);
    for (let run = 0; run < runCount(40); run++) {
      const pattern = Uint8Array.from({ length: 3 + (next() % 9) }, () => next() % 3);
      const filter = new PlaceFilter(pattern);
      for (let i = 0; i < 20; i++) filter.hear(i, Float64Array.from({ length: 3 }, share), share());
      const before = [...filter.posterior];
      filter.turn(1);
      expect(filter.posterior[1]).toBe(before[0]);
      expect(filter.posterior[0]).toBe(before[pattern.length - 1]);
      expect(filter.posterior[pattern.length]).toBe(before[pattern.length]);
      filter.turn(-1);
      expect([...filter.posterior]).toEqual(before);
    }
  });

  it('stays finite through hours of one place', () => {
    const filter = new PlaceFilter(Uint8Array.of(0, 1, 1));
    for (let i = 0; i < 200_000; i++)
      filter.hear(i, Float64Array.of(i % 3 === 0 ? 0.9 : 0.01, i % 3 === 0 ? 0.01 : 0.9), 0.1);
    expect(filter.posterior[0]).toBeGreaterThan(0.99);
    expect([...filter.posterior].every(Number.isFinite)).toBe(true);
  });

  it('knows nothing of a pattern of one partial but whether it is played', () => {
    const { posterior } = new PlaceFilter(Uint8Array.of(0));
    expect([...posterior].map((share) => share.toFixed(3))).toEqual(['0.714', '0.286']);
  });
});
