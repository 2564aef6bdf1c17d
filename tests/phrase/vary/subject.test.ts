import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layerStack } from '../../../src/phrase/layers/layer-stack';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { Subject } from '../../../src/phrase/vary/subject';
import { vary, type Twist } from '../../../src/phrase/vary/vary';
import { writePhrase } from '../../../src/phrase/file/write-phrase';
import { arbitraryPhrase } from '../arbitrary-phrase';
import { layeredPhrase } from '../phrase-of';
import { runCount } from '../../run-count';

const by = fc.integer({ min: -20, max: 20 });
/** Twists that lay one layer more on. */
const laying: fc.Arbitrary<Twist> = fc.oneof(
  by.map((by) => ({ kind: 'displace' as const, by })),
  fc
    .integer({ min: 1, max: 12 })
    .map((subdivision) => ({ kind: 'subdivision' as const, subdivision })),
  fc.integer({ min: 1, max: 12 }).map((keep) => ({ kind: 'thin out' as const, keep })),
  fc
    .constantFrom('R' as const, 'L' as const, 'K' as const)
    .map((limb) => ({ kind: 'orchestrate' as const, limb, voice: 'ride' as const })),
  fc.constant({ kind: 'swap voices' as const, voices: ['snare', 'high tom'] as const }),
);
/** Twists that rewrite every layer, and some that do not. */
const following: fc.Arbitrary<Twist> = fc.oneof(
  by.map((by) => ({ kind: 'rotate' as const, by })),
  fc.integer({ min: 1, max: 24 }).map((cycle) => ({ kind: 'cycle' as const, cycle })),
  fc.constantFrom({ kind: 'mirror' as const }, { kind: 'double strokes' as const }),
  laying,
);

const plainly = (phrase: Phrase, first: Twist, second: Twist) => {
  const once = vary(phrase, first);
  const twice = once && vary(once.phrase, second);
  return twice && [writePhrase(twice.phrase), `${once.sentence} ${twice.sentence}`];
};
const asSubject = (phrase: Phrase, first: Twist, second: Twist) => {
  const subject = new Subject({ stack: layerStack(phrase), sentence: '' });
  const twice = subject.twist(first)?.twist(second);
  return twice && [writePhrase(twice.stack.phrase), twice.sentence];
};

describe('a phrase twisted in many ways', () => {
  it('lawAsOneByOne: two twists in a row make the phrase that they make each by itself', () => {
    const runs = runCount(150, 20);
    let made = 0;
    fc.assert(
      fc.property(arbitraryPhrase(), laying, following, (phrase, first, second) => {
        const expected = plainly(phrase, first, second);
        expect(asSubject(phrase, first, second)).toEqual(expected);
        if (expected) made++;
      }),
      { numRuns: runs },
    );
    expect(made).toBeGreaterThan(runs / 3);
  });

  it('rewrites strokes that a layer numbers by the whole phrase', () => {
    const phrase = layeredPhrase({ grouping: 'R L R L K' }, [
      { where: { limb: 'L', nth: [2] }, set: { level: 'accent' } },
    ]);
    const first: Twist = { kind: 'orchestrate', limb: 'L', voice: 'high tom' };
    const second: Twist = { kind: 'rotate', by: 2 };
    expect(asSubject(phrase, first, second)).toEqual(plainly(phrase, first, second));
    expect(asSubject(phrase, first, second)![0]).toContain('"positions": [2]');
  });
});
