import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { playability } from '../../../src/phrase/playability/playability';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { distance } from '../../../src/phrase/vary/distance';
import { outcomeOf, phraseOfDraft } from '../../../src/phrase/vary/outcome';
import { draftOf } from '../../../src/phrase/model/phrase-draft';
import { twistFacts } from '../../../src/phrase/vary/twist-facts';
import {
  elsewhere,
  sentTwist,
  TWIST_KINDS,
  usualSettings,
  type SentTwist,
} from '../../../src/phrase/vary/twist-settings';
import { libraryPhrases } from '../../practice/vary/library-phrases';
import { slipRope } from './slip-rope';

const weigh = (phrase: Phrase, twist: SentTwist, bpm = phrase.tempoBpm) => {
  const draft = draftOf(phrase);
  return outcomeOf({ ask: 'twist', original: draft, base: draft, twist, bpm });
};
const slip = slipRope({ grouping: 'R L K' });

describe('a twist weighed', () => {
  const cases: readonly [SentTwist, string][] = [
    [{ kind: 'rotate', by: 1 }, 'The sticking starts 1 partial further on in its cycle.'],
    [{ kind: 'displace', by: 2 }, 'The phrase lies 2 partials later against the bar.'],
    [
      { kind: 'subdivision', subdivision: 3 },
      'Each beat has 3 partials in place of 4, with the same strokes on them.',
    ],
    [{ kind: 'cycle', cycle: 5 }, 'The cycle has 5 partials in place of 3.'],
    [{ kind: 'swap voices', voices: ['snare', 'ride'] }, 'What was on the snare is on the ride.'],
    [{ kind: 'mirror' }, 'Right and left hand are exchanged.'],
    [{ kind: 'thin out', keep: 2 }, 'Strokes stay on 2 of 3 places, spread evenly.'],
    [{ kind: 'double strokes' }, 'Every stroke of a hand is played twice in its time.'],
  ];
  for (const [twist, sentence] of cases)
    it(`${twist.kind}: a sentence, its figures, and nothing refused`, () => {
      const { variation, refused } = weigh(slip, twist);
      expect(refused).toBeUndefined();
      expect(variation!.sentence).toBe(sentence);
      expect(variation!.distance).toBeGreaterThan(0);
      expect(variation!.fromBase).toBe(variation!.distance);
      expect(variation!.upToBpm).toBeGreaterThanOrEqual(90);
    });

  it('orchestrate and merge too', () => {
    const one = weigh(slip, { kind: 'orchestrate', limb: 'L', voice: 'floor tom' });
    expect([one.refused, one.variation!.distance]).toEqual([undefined, 1]);
    const feet = slipRope({ title: 'Mooring', grouping: 'F - - -' });
    const merged = weigh(slip, { kind: 'merge', with: draftOf(feet) });
    expect(merged.refused).toBeUndefined();
    expect(phraseOfDraft(merged.variation!.draft).cycle).toBe(12);
    expect(merged.variation!.sentence).toContain('"Mooring"');
  });

  it('is measured from the original and from what was varied', () => {
    const original = draftOf(slip);
    const mirrored = weigh(slip, { kind: 'mirror' }).variation!.draft;
    const bpm = 90;
    const back = outcomeOf({
      ask: 'twist',
      original,
      base: mirrored,
      twist: { kind: 'mirror' },
      bpm,
    });
    expect(back.variation!.distance).toBe(0);
    expect(back.variation!.fromBase).toBeGreaterThan(0);
    expect(back.refused!.reasons).toEqual([
      'This leads back to the original; choose another setting.',
    ]);
  });
});

describe('what a twist cannot do is told', () => {
  const reasons = (phrase: Phrase, twist: SentTwist, bpm?: number) =>
    weigh(phrase, twist, bpm).refused?.reasons.join(' ');

  it('merging what does not fit', () => {
    const merge = (file: object): SentTwist => ({
      kind: 'merge',
      with: draftOf(slipRope({ title: 'Mooring', grouping: 'F -', ...file })),
    });
    expect(reasons(slip, merge({ meter: '3/4' }))).toBe(
      '"Mooring" is in 3/4 and this phrase in 4/4; choose a phrase of the same meter.',
    );
    expect(reasons(slip, merge({ subdivision: 3 }))).toBe(
      '"Mooring" has 3 partials to the beat and this phrase 4; change the subdivision first, or choose another phrase.',
    );
    expect(reasons(slip, merge({ grouping: 'R L K' }))).toContain('finds its limb free');
    const long = slipRope({ grouping: 'R L K', cycle: 101 });
    expect(reasons(long, merge({ cycle: 103 }))).toContain('meet again after 10403 partials');
  });

  it('thinning out what has one stroke, doubling what is too fine', () => {
    expect(reasons(slip, { kind: 'thin out', keep: 1, limb: 'K' })).toBe(
      'There is only one stroke in the cycle, so none can be left out; thin out another limb, or take another change.',
    );
    expect(reasons(slipRope({ grouping: 'R L', subdivision: 8 }), { kind: 'double strokes' })).toBe(
      'Twice 8 partials to the beat are more than the 12 there can be; choose a coarser subdivision first.',
    );
  });

  it('the layer that would find no note any more, by its name', () => {
    const gulls = libraryPhrases().find(({ title }) => title === 'Two Gulls')!;
    // R L K L R K from its second partial on has no right hand on partials 1, 3 and 5, where every fourth accent falls.
    expect(reasons(gulls, { kind: 'rotate', by: 1 })).toBe(
      'Layer 3, "Accents to the floor tom", would find no note to change any more, or would ask one limb for two strokes at once; choose another setting, or take that layer out in the composer first.',
    );
  });

  it('one more layer than a phrase can have', () => {
    const layers = Array.from({ length: 32 }, (_, i) => ({ name: `Layer ${i + 1}` }));
    expect(reasons(slipRope({ grouping: 'R L', layers }), { kind: 'displace', by: 1 })).toContain(
      'take a layer away first',
    );
  });

  it('what sounds the same: a rotation of equal strokes on one voice', () => {
    expect(reasons(slipRope({ grouping: 'K K' }), { kind: 'rotate', by: 1 })).toBe(
      'Nothing would sound different; choose another setting.',
    );
  });

  it('what is too fast, with a tempo that is not', () => {
    const { refused } = weigh(
      slipRope({ grouping: 'R L K', tempoBpm: 200 }),
      { kind: 'double strokes' },
      200,
    );
    expect(refused!.reasons.length).toBeGreaterThan(0);
    const { slowTo } = refused!;
    expect(slowTo).toBeLessThan(200);
    expect(
      weigh(slip, { kind: 'double strokes' }, slowTo).refused,
      'slowed down it is offered',
    ).toBeUndefined();
  });
});

const TWISTS: readonly SentTwist[] = [
  { kind: 'rotate', by: 2 },
  { kind: 'displace', by: -1 },
  { kind: 'subdivision', subdivision: 3 },
  { kind: 'cycle', cycle: 7 },
  { kind: 'swap voices', voices: ['snare', 'high tom'] },
  { kind: 'mirror' },
  { kind: 'thin out', keep: 3 },
  { kind: 'double strokes' },
  { kind: 'orchestrate', limb: 'R', voice: 'ride', level: 'accent' },
  { kind: 'merge', with: draftOf(slipRope({ title: 'Mooring', grouping: 'F - - -' })) },
];

describe('for every phrase of the library, twist and tempo', () => {
  it('there is an outcome or a reason, and what is offered can be played in every layer', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...libraryPhrases()),
        fc.constantFrom(...TWISTS),
        fc.integer({ min: 40, max: 220 }),
        (phrase, twist, bpm) => {
          const { variation, refused } = weigh(phrase, twist, bpm);
          if (refused) {
            expect(refused.reasons.length).toBeGreaterThan(0);
            return;
          }
          expect(variation!.upToBpm).toBeGreaterThanOrEqual(bpm);
          const varied = phraseOfDraft(variation!.draft);
          expect(distance(phrase, varied)).toBe(variation!.distance);
          varied.layers.forEach((_, i) =>
            expect(playability(varied, i + 1, bpm).problems).toEqual([]),
          );
        },
      ),
      { numRuns: 120, seed: 1 },
    );
  });
});

describe('what is set before the player sets anything', () => {
  const kinds = TWIST_KINDS.filter((kind) => kind !== 'merge');
  it.each(libraryPhrases())('changes something in $title', (phrase) => {
    const settings = usualSettings(phrase);
    for (const kind of kinds) {
      const { variation } = weigh(
        phrase,
        sentTwist(kind, settings, () => undefined)!,
      );
      expect(variation?.fromBase, kind).toBeGreaterThan(0);
    }
    for (const limb of twistFacts(phrase).limbs) {
      const moved = sentTwist(
        'orchestrate',
        { ...settings, limb, voice: elsewhere(phrase, limb) },
        () => undefined,
      )!;
      expect(weigh(phrase, moved).variation?.fromBase, limb).toBeGreaterThan(0);
    }
  });
});
