import { describe, expect, it } from 'vitest';
import { playability } from '../../../src/phrase/playability/playability';
import { timeline } from '../../../src/phrase/layers/timeline';
import { draftOf } from '../../../src/phrase/model/phrase-draft';
import { phraseOfDraft } from '../../../src/phrase/vary/outcome';
import { proposalsOf, type ProposalsJob } from '../../../src/phrase/vary/proposals';
import { constraintsOf } from '../../../src/practice/vary/proposing.svelte';
import { libraryPhrases } from '../../practice/vary/library-phrases';

const quaySteps = libraryPhrases().find(({ title }) => title === 'Quay Steps')!;
const draft = draftOf(quaySteps);
const job = (part: Partial<ProposalsJob['constraints']> = {}, seed = 1): ProposalsJob => ({
  ask: 'proposals',
  original: draft,
  base: draft,
  count: 6,
  constraints: { bpm: 88, ...part },
  seed,
});

describe('proposals', () => {
  it('are the same for the same seed, and others for another', () => {
    expect(proposalsOf(job())).toEqual(proposalsOf(job()));
    const texts = (seed: number) => proposalsOf(job({}, seed)).found.map((one) => one.draft);
    expect(texts(1)).not.toEqual(texts(2));
  });

  it('keep to every limit, and can be played in every layer', () => {
    const limits = {
      limbs: ['R', 'L', 'K'],
      voices: ['snare', 'high tom', 'floor tom', 'bass drum'],
      highestDifficulty: 30,
      distance: [2, 20],
    } as const;
    const { found } = proposalsOf(job(limits));
    expect(found.length).toBeGreaterThan(0);
    for (const one of found) {
      expect(one.sentence).toMatch(/\.$/);
      expect(one.fromBase).toBeGreaterThanOrEqual(2);
      expect(one.fromBase).toBeLessThanOrEqual(20);
      expect(one.difficulty).toBeLessThanOrEqual(30);
      const phrase = phraseOfDraft(one.draft);
      const { notes } = timeline(phrase, phrase.layers.length);
      expect(limits.limbs).toEqual(expect.arrayContaining(notes.map(({ limb }) => limb)));
      expect(limits.voices).toEqual(expect.arrayContaining(notes.map(({ voice }) => voice)));
      phrase.layers.forEach((_, i) => expect(playability(phrase, i + 1, 88).problems).toEqual([]));
    }
  });

  it('where there are none, the limit to loosen is told with what there would be', () => {
    const { found, loosened } = proposalsOf(job({ highestDifficulty: 1 }));
    expect(found).toEqual([]);
    const [first] = loosened;
    expect([first!.limit, first!.found]).toEqual(['highestDifficulty', 6]);
    const easiest = first!.figures[0]!;
    expect(easiest).toBeGreaterThan(1);
    expect(proposalsOf(job({ highestDifficulty: easiest })).found.length).toBeGreaterThan(0);
  });

  it('two limits that each keep everything back are not loosened one by one', () => {
    const { found, loosened } = proposalsOf(job({ highestDifficulty: 1, limbs: [] }));
    expect([found, loosened]).toEqual([[], []]);
  });
});

describe('limits', () => {
  const none = {
    limbs: ['R', 'L', 'K', 'F'],
    voices: ['snare', 'ride'],
    highestDifficulty: undefined,
    leastDistance: undefined,
    mostDistance: undefined,
  } as const;

  it('ask for nothing where everything is allowed', () => {
    expect(constraintsOf(none, ['snare', 'ride'])).toEqual({});
  });

  it('ask for what is left, with distances open on one side', () => {
    const limits = { ...none, voices: ['snare'], leastDistance: 4, highestDifficulty: 20 } as const;
    expect(constraintsOf(limits, ['snare', 'ride'])).toEqual({
      voices: ['snare'],
      highestDifficulty: 20,
      distance: [4, Infinity],
    });
  });
});
