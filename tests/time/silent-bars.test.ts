import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isSilentBar, silentStretches, type SilentBars } from '../../src/time/silent-bars';

const rules: fc.Arbitrary<SilentBars> = fc.record({
  sounding: fc.integer({ min: 1, max: 6 }),
  silent: fc.integer({ min: 1, max: 6 }),
  growBy: fc.nat(3),
  most: fc.integer({ min: 1, max: 12 }),
});

/** Counted out bar by bar. */
function byHand({ sounding, silent, growBy, most }: SilentBars, bars: number): boolean[] {
  const out: boolean[] = [];
  let longest = silent;
  while (out.length < bars) {
    for (let i = 0; i < sounding; i++) out.push(false);
    for (let i = 0; i < longest; i++) out.push(true);
    if (longest < most) longest = Math.min(most, longest + growBy);
  }
  return out.slice(0, bars);
}

describe('silent bars', () => {
  it('lawBarByBar: are those that come when they are counted out', () => {
    fc.assert(
      fc.property(rules, (rule) => {
        const bars = Array.from({ length: 60 }, (_, i) => isSilentBar(rule, i + 1));
        expect(bars).toEqual(byHand(rule, 60));
      }),
    );
  });

  it('lawStretches: are the stretches, bar for bar', () => {
    fc.assert(
      fc.property(rules, fc.integer({ min: 1, max: 80 }), (rule, upTo) => {
        const inStretches = silentStretches(rule, upTo).flatMap(({ fromBar, toBar }) =>
          Array.from({ length: toBar - fromBar + 1 }, (_, i) => fromBar + i),
        );
        const silent = byHand(rule, upTo).flatMap((isSilent, i) => (isSilent ? [i + 1] : []));
        expect(inStretches.filter((bar) => bar <= upTo)).toEqual(silent);
      }),
    );
  });

  it('never come before bar 1', () => {
    const rule = { sounding: 1, silent: 1, growBy: 0, most: 1 };
    expect([-1, 0, 1, 2, 3].map((bar) => isSilentBar(rule, bar))).toEqual([
      false,
      false,
      false,
      true,
      false,
    ]);
  });
});
