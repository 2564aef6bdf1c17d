import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LaidLayers } from '../../../src/phrase/layers/laid-layers';
import { checkPhrase } from '../../../src/phrase/file/parse-phrase';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { cuttingAt } from '../../../src/phrase/vary/change-cycle';
import {
  checkedLayers,
  withCheckedLayer,
  type PlainChange,
} from '../../../src/phrase/vary/checked-layer';
import { doublePhrase } from '../../../src/phrase/vary/double-strokes';
import { MIRRORING } from '../../../src/phrase/vary/mirror';
import { pinNumbers } from '../../../src/phrase/vary/pin-numbers';
import { rewrite } from '../../../src/phrase/vary/rewrite';
import { rotating } from '../../../src/phrase/vary/rotate';
import { phraseFile } from '../../../src/phrase/file/write-phrase';
import { arbitraryPhrase } from '../arbitrary-phrase';

describe('one layer more, checked', () => {
  const changes: fc.Arbitrary<PlainChange> = fc.oneof(
    fc.integer({ min: -9, max: 9 }).map((displace) => ({ kind: 'displace' as const, displace })),
    fc
      .integer({ min: 0, max: 14 })
      .map((subdivision) => ({ kind: 'subdivision' as const, subdivision })),
    fc
      .record({
        limb: fc.constantFrom('R' as const, 'L' as const, 'K' as const, 'F' as const),
        silent: fc.boolean(),
      })
      .map(({ limb, silent }) => ({ kind: 'set' as const, where: { limb }, set: { silent } })),
  );

  it('lawAsTheWholeCheck: it is a phrase exactly when its file is one', () => {
    fc.assert(
      fc.property(arbitraryPhrase(), changes, (phrase, change) => {
        const layer = { name: 'More', changes: [change] };
        const more = withCheckedLayer(new LaidLayers(phrase), layer);
        const file = phraseFile({ ...phrase, layers: [...phrase.layers, layer] });
        expect(more !== undefined).toBe(checkPhrase(file).ok);
      }),
      { numRuns: 300 },
    );
  });
});

describe('a phrase put together from the parts of a checked one, checked', () => {
  const rewriting: fc.Arbitrary<(phrase: Phrase) => Phrase> = fc.oneof(
    fc
      .integer({ min: 1, max: 12 })
      .map((by) => (one: Phrase) => rewrite(pinNumbers(one), rotating(one.cycle, by))),
    fc.integer({ min: -1, max: 513 }).map((cycle) => (one: Phrase) => ({
      ...rewrite(pinNumbers(one), cuttingAt(cycle)),
      cycle,
    })),
    fc
      .integer({ min: 1, max: 6 })
      .map((cycle) => (one: Phrase) => ({ ...rewrite(one, cuttingAt(cycle)), cycle })),
    fc.constant((one: Phrase) => rewrite(one, MIRRORING)),
    fc.constant(doublePhrase),
    fc.constant((one: Phrase) => doublePhrase(doublePhrase(one))),
  );

  it('lawAsTheWholeCheck: it is a phrase exactly when its file is one', () => {
    let refused = 0;
    fc.assert(
      fc.property(arbitraryPhrase(), rewriting, (phrase, rewritten) => {
        const made = rewritten(phrase);
        const { ok } = checkPhrase(phraseFile(made));
        expect(checkedLayers(made) !== undefined).toBe(ok);
        if (!ok) refused++;
      }),
      { numRuns: 500 },
    );
    expect(refused).toBeGreaterThan(50);
  });
});
