import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layPhrase } from '../../../src/phrase/layers/cycle-pattern';
import { LaidLayers } from '../../../src/phrase/layers/laid-layers';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { arbitraryPhrase } from '../arbitrary-phrase';
import { layeredPhrase } from '../phrase-of';
import { runCount } from '../../run-count';

const CYCLES = [0, 1, 2, 3, 7];

function expectLaidAs(laid: LaidLayers, phrase: Phrase) {
  let found: LaidLayers | undefined = laid;
  for (let layer = phrase.layers.length; layer > 0; layer--, found = found.below) {
    const whole = layPhrase(phrase, layer);
    if (!found) throw new Error(`Nothing below layer ${layer + 1}.`);
    expect(found.period).toBe(whole.period);
    expect(found.grid).toEqual(whole.grid);
    for (const cycle of CYCLES) expect(found.pattern(cycle)).toEqual(whole.pattern(cycle));
  }
  expect(found).toBeUndefined();
}

describe('layers laid on one by one', () => {
  it('lawAsTheWhole: every layer is what laying all of them up to it gives', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        expectLaidAs(new LaidLayers(phrase), phrase);
        const below = { ...phrase, layers: phrase.layers.slice(0, 1) };
        let grown = new LaidLayers(below);
        for (const layer of phrase.layers.slice(1)) grown = grown.plus(layer);
        expectLaidAs(grown, phrase);
      }),
      { numRuns: runCount(100) },
    );
  });

  it('leaves what it was made from as it was', () => {
    const phrase = layeredPhrase({ grouping: 'lR L' });
    const laid = new LaidLayers(phrase);
    const before = structuredClone(laid.pattern(1));
    const more = laid.plus({
      name: 'Crash',
      changes: [{ kind: 'set', where: {}, set: { voice: 'crash', level: 'accent' } }],
    });
    expect(more.pattern(1).map(({ voice }) => voice)).toEqual(['crash', 'crash', 'crash']);
    expect(laid.pattern(1)).toEqual(before);
  });
});
