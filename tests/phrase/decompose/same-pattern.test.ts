import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { samePattern } from '../../../src/phrase/decompose/same-pattern';
import { targetPattern } from '../../../src/phrase/decompose/target-pattern';
import { layerStack } from '../../../src/phrase/layers/layer-stack';
import { soundsSame } from '../../../src/phrase/layers/same-sound';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { longRunCount } from '../../run-count';
import { arbitraryPhrase } from '../arbitrary-phrase';
import { phraseOf } from '../phrase-of';

/** What is said of two phrases at a layer: of their layers, and of the patterns they are; undefined where one has none. */
function answers(a: Phrase, layerOfA: number, b: Phrase, layerOfB: number) {
  const [one, other] = [targetPattern(a, layerOfA), targetPattern(b, layerOfB)];
  if (!one.ok || !other.ok) return undefined;
  return {
    asPatterns: samePattern(one.value, other.value),
    asLayers: soundsSame(layerStack(a, layerOfA), layerStack(b, layerOfB)),
  };
}

describe('whether two phrases sound the same', () => {
  it('lawSameEither: is answered alike of their layers and of their patterns', () => {
    const seen = { true: 0, false: 0 };
    fc.assert(
      fc.property(arbitraryPhrase(), (phrase) => {
        for (let b = 2; b <= phrase.layers.length; b++)
          for (let a = 1; a < b; a++) {
            const found = answers(phrase, a, phrase, b);
            if (!found) continue;
            seen[`${found.asLayers}`]++;
            expect(found.asPatterns).toBe(found.asLayers);
          }
      }),
      { numRuns: longRunCount(2000, 20) },
    );
    expect(Math.min(seen.true, seen.false)).toBeGreaterThan(10);
  });

  it.each([
    ['lR+L', 'R+lL'],
    ['rL+R', 'L+rR'],
    ['rlR+L', 'R+rlL'],
  ])('not when the same grace notes lean on another note: %s and %s', (one, other) => {
    const [a, b] = [phraseOf({ grouping: one }), phraseOf({ grouping: other })];
    expect(answers(a, 1, b, 1)).toEqual({ asPatterns: false, asLayers: false });
  });

  it('when one has the swing 1:1 and the other none', () => {
    const [a, b] = [phraseOf({ swing: '1:1' }), phraseOf({})];
    expect(answers(a, 1, b, 1)).toEqual({ asPatterns: true, asLayers: true });
  });
});
