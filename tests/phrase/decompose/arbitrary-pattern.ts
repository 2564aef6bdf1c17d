import * as fc from 'fast-check';
import type { TargetPattern } from '../../../src/phrase/decompose/target-pattern';
import { LEVELS } from '../../../src/phrase/model/level';
import { LIMBS } from '../../../src/phrase/model/limb';
import { VOICES } from '../../../src/phrase/model/voice';

/** Also lengths that nothing divides, lengths beyond any cycle, and the longest prime length a pattern has. */
const LENGTHS = [7, 13, 16, 24, 60, 97, 521, 640, 1021, 4093] as const;

/** Any notes at all, without order and grace notes: a limb at most once at a time. */
export const arbitraryPattern = (): fc.Arbitrary<TargetPattern> =>
  fc.constantFrom(...LENGTHS).chain((cyclePartials) =>
    fc.record({
      meter: fc.constantFrom('4/4', '7/8', '5/4'),
      subdivision: fc.constantFrom(2, 3, 4),
      cyclePartials: fc.constant(cyclePartials),
      tempoBpm: fc.constant(90),
      notes: fc.uniqueArray(
        fc.record({
          partial: fc.nat(cyclePartials - 1),
          limb: fc.constantFrom(...LIMBS),
          voice: fc.constantFrom(...VOICES),
          level: fc.constantFrom(...LEVELS),
          graces: fc.constant([]),
        }),
        { minLength: 1, maxLength: 60, selector: ({ partial, limb }) => `${partial} ${limb}` },
      ),
      pickup: fc.constant([]),
    }),
  );
