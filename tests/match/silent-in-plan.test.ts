import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isSilentIn, silentAfter, type Plan } from '../../src/match/plan';
import { beats } from '../../src/time/beats';
import type { SilentBars } from '../../src/time/silent-bars';
import { tempoMap } from '../../src/time/tempo';
import { harbourPlan } from '../coach/practice-take';

const rules: fc.Arbitrary<SilentBars> = fc.record({
  sounding: fc.integer({ min: 1, max: 4 }),
  silent: fc.integer({ min: 1, max: 4 }),
  growBy: fc.nat(2),
  most: fc.integer({ min: 1, max: 8 }),
  anewAtTempo: fc.boolean(),
});
/** Where another tempo begins, in half beats of bars of four, and which. */
const changes = fc
  .uniqueArray(
    fc.record({ halves: fc.integer({ min: 1, max: 300 }), bpm: fc.constantFrom(80, 84) }),
    {
      maxLength: 6,
      selector: ({ halves }) => halves,
    },
  )
  .map((all) => all.toSorted((a, b) => a.halves - b.halves));
type Change = { readonly halves: number; readonly bpm: number };

const planOf = (silentBars: SilentBars, later: readonly Change[]): Plan => ({
  ...harbourPlan(),
  silentBars,
  tempo: tempoMap([
    { fromBeat: beats(0), bpm: 80 },
    ...later.map(({ halves, bpm }) => ({ fromBeat: beats(halves, 2), bpm })),
  ]),
});

/** Counted out bar by bar: a bar in which another tempo begins is the first of the bars with a click. */
function byHand(rule: SilentBars, later: readonly Change[], bars: number): boolean[] {
  const out: boolean[] = [];
  let [bpm, stretch, clicks, left] = [80, rule.silent, rule.sounding, 0];
  for (let bar = 0; bar < bars; bar++) {
    for (const change of later.filter(({ halves }) => Math.floor(halves / 8) === bar)) {
      if (rule.anewAtTempo && change.bpm !== bpm)
        [stretch, clicks, left] = [rule.silent, rule.sounding, 0];
      bpm = change.bpm;
    }
    if (left > 0) {
      out.push(true);
      left--;
    } else if (clicks > 0) {
      out.push(false);
      clicks--;
      if (clicks === 0) left = stretch;
    }
    if (out.at(-1) && left === 0) {
      clicks = rule.sounding;
      if (stretch < rule.most) stretch = Math.min(rule.most, stretch + rule.growBy);
    }
  }
  return out;
}

describe('silent bars of a plan', () => {
  it('lawBarByBar: are those that come when they are counted out, anew at every tempo', () => {
    fc.assert(
      fc.property(rules, changes, (rule, later) => {
        const plan = planOf(rule, later);
        const bars = Array.from({ length: 60 }, (_, i) => isSilentIn(plan, i + 1));
        expect(bars).toEqual(byHand(rule, later, 60));
      }),
    );
  });

  it('lawStretches: are found one after the other', () => {
    fc.assert(
      fc.property(rules, changes, (rule, later) => {
        const plan = planOf(rule, later);
        const found: number[] = [];
        for (let after = 0; after < 60;) {
          const { fromBar, toBar } = silentAfter(plan, after)!;
          expect(fromBar).toBeGreaterThan(after);
          for (let bar = fromBar; bar <= toBar; bar++) found.push(bar);
          after = toBar;
        }
        const silent = byHand(rule, later, 100).flatMap((one, i) => (one ? [i + 1] : []));
        expect(found).toEqual(silent.slice(0, found.length));
        expect(found.at(-1)).toBeGreaterThanOrEqual(60);
      }),
    );
  });

  it('a golden case: two with, two without, another tempo in the midst of bar 8', () => {
    const rule = { sounding: 2, silent: 2, growBy: 0, most: 2 };
    const silentOf = (some: Partial<SilentBars>, bpm = 84) => {
      const plan = planOf({ ...rule, ...some }, [{ halves: 58, bpm }]);
      return Array.from({ length: 12 }, (_, i) => i + 1).filter((bar) => isSilentIn(plan, bar));
    };
    expect(silentOf({ anewAtTempo: true })).toEqual([3, 4, 7, 10, 11]);
    expect(silentOf({})).toEqual([3, 4, 7, 8, 11, 12]);
    // The same tempo said again is no other.
    expect(silentOf({ anewAtTempo: true }, 80)).toEqual([3, 4, 7, 8, 11, 12]);
  });
});
