import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DraftCheck } from '../../../src/phrase/check/draft-check';
import { applyChange } from '../../../src/phrase/layers/apply-change';
import { soundingNotes } from '../../../src/phrase/layers/cycle-pattern';
import { rootCycle } from '../../../src/phrase/layers/layer-stroke';
import { layerStack, LayerStack } from '../../../src/phrase/layers/layer-stack';
import { changedGrid, gridAt, rootGrid } from '../../../src/phrase/model/grid';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { draftOf } from '../../../src/phrase/model/phrase-draft';
import { arbitraryPhrase } from '../arbitrary-phrase';
import { layeredPhrase, phraseOf } from '../phrase-of';
import { runCount } from '../../run-count';

const CYCLES = [0, 1, 2, 3, 7, 70];

/** A cycle with every change put on it in order, nothing shared and nothing kept. */
function laidPlainly(phrase: Phrase, layer: number, cycle: number) {
  const strokes = cycle === 0 ? [] : rootCycle(phrase);
  let grid = rootGrid(phrase);
  phrase.layers.slice(0, layer).forEach(({ changes }, i) => {
    for (const change of changes) {
      applyChange(strokes, change, {
        layer: i + 1,
        startPartial: (cycle - 1) * phrase.cycle + grid.displace,
        isPickup: cycle === 0,
        subdivision: grid.subdivision,
        barPartials: grid.barPartials,
      });
      grid = changedGrid(grid, change, i + 1);
    }
  });
  return soundingNotes(strokes);
}

describe('layers laid on one by one', () => {
  it('lawAsTheWhole: every layer is what laying all of them up to it gives', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        let stack: LayerStack | undefined = layerStack(phrase);
        for (let layer = phrase.layers.length; layer > 0; layer--, stack = stack.below) {
          if (!stack) throw new Error(`Nothing below layer ${layer + 1}.`);
          expect(stack.grid).toEqual(gridAt(phrase, layer));
          for (const cycle of CYCLES)
            expect(stack.pattern(cycle)).toEqual(laidPlainly(phrase, layer, cycle));
        }
        expect(stack).toBeUndefined();
      }),
      { numRuns: runCount(100) },
    );
  });

  it('lawRepeats: after its period a cycle is the same again', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), fc.integer({ min: 1, max: 9 }), (phrase, cycle) => {
        const { period } = layerStack(phrase);
        if (period > 500) return;
        const { length } = phrase.layers;
        expect(laidPlainly(phrase, length, cycle + period)).toEqual(
          laidPlainly(phrase, length, cycle),
        );
      }),
      { numRuns: runCount(100) },
    );
  });

  it('keeps what few strokes there are in many cycles, and alike cycles once', () => {
    const round = (partials: number) => ({
      name: 'Round',
      changes: [{ where: { every: { partials, at: [1] } }, set: { voice: 'ride' as const } }],
    });
    const { layers, ...head } = phraseOf({ grouping: 'R', cycle: 2, layers: [round(1022)] });
    const [first, ...others] = [...layers, ...phraseOf({ layers: [round(3)] }).layers];
    const lays: string[] = [];
    let stack = new LayerStack({ ...head, layers: [first!] }, undefined, (layer, cycle) =>
      lays.push(`${layer} ${cycle}`),
    );
    for (const layer of others) stack = stack.over(layer);
    for (let time = 0; time < 2; time++)
      for (let cycle = 0; cycle <= stack.period; cycle++) stack.cycle(cycle);
    expect(lays.length).toBe(new Set(lays).size);
    expect(stack.below!.cycle(2)).toBe(stack.below!.cycle(3));
  });

  it('is the one that a check has laid on, while somebody holds that, and one for all who ask', () => {
    const check = new DraftCheck(draftOf(phraseOf({})));
    const { stack } = check;
    expect(layerStack(check.phrase!)).toBe(stack);
    expect(layerStack(check.phrase!, 1)).toBe(stack!.at(1));
    const phrase = phraseOf({});
    expect(layerStack(phrase)).toBe(layerStack(phrase));
    expect(layerStack(phrase)).not.toBe(stack);
  });

  it('leaves what it was made from as it was', () => {
    const stack = layerStack(layeredPhrase({ grouping: 'lR L' }));
    const before = structuredClone(stack.pattern(1));
    const more = stack.over({
      name: 'Crash',
      changes: [{ kind: 'set', where: {}, set: { voice: 'crash', level: 'accent' } }],
    });
    expect(more.pattern(1).map(({ voice }) => voice)).toEqual(['crash', 'crash', 'crash']);
    expect(stack.pattern(1)).toEqual(before);
  });

  it('refuses a layer that is not there', () => {
    const phrase = layeredPhrase({}, []);
    for (const layer of [0, 1.5, 3]) expect(() => layerStack(phrase, layer)).toThrow(RangeError);
    expect(layerStack(phrase, 2).phrase.layers).toHaveLength(2);
  });
});
