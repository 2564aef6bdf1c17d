import { describe, expect, it } from 'vitest';
import { draftOf } from '../../../src/phrase/model/phrase-draft';
import type { LibraryPhrase } from '../../../src/practice/library.svelte';
import type { VaryThread } from '../../../src/practice/vary/vary-thread';
import { OwnVariations } from '../../../src/practice/vary/own-variations.svelte';
import { outcomeOf, type Outcome, type TwistJob } from '../../../src/phrase/vary/outcome';
import { proposalsOf, type Proposals } from '../../../src/phrase/vary/proposals';
import { HIGHEST_SEED, Proposing } from '../../../src/practice/vary/proposing.svelte';
import { Varying } from '../../../src/practice/vary/varying.svelte';
import { storeProblem } from '../../../src/store/store-problem';
import { phraseOf } from '../../phrase/phrase-of';

const phrase = phraseOf({ title: 'Slip Rope', grouping: 'R L K' });

/** Answers when the test lets it; a new question, or closing, makes an open one moot. */
class AskedByHand<Job, Answer> implements VaryThread<Job, Answer> {
  open: { job: Job; settle: (answer: Answer | undefined) => void; fail: () => void } | undefined;

  ask(job: Job): Promise<Answer | undefined> {
    this.close();
    return new Promise((resolve, reject) => {
      this.open = { job, settle: resolve, fail: () => reject(new Error('no memory')) };
    });
  }
  async answer(of: (job: Job) => Answer) {
    const { job, settle } = this.open!;
    this.open = undefined;
    settle(of(job));
    await Promise.resolve();
  }
  close() {
    this.open?.settle(undefined);
    this.open = undefined;
  }
}

function varyingRig(original = phrase) {
  const weigh = new AskedByHand<TwistJob, Outcome>();
  const varying = new Varying({ phrase: original, weigh, draftFor: () => undefined });
  return { weigh, varying, answer: () => weigh.answer(outcomeOf) };
}

describe('varying by hand', () => {
  it('shows the answer to the last question only', async () => {
    const { varying, weigh, answer } = varyingRig();
    varying.chooseKind('mirror');
    expect([weigh.open!.job.twist.kind, varying.isWeighing]).toEqual(['mirror', true]);
    await answer();
    expect(varying.outcome.variant!.phrase.groupingText).toBe('L R K');
    expect(varying.isWeighing).toBe(false);
  });

  it('shows nothing, and waits for nothing, while no phrase to merge with is chosen', async () => {
    const { varying, weigh } = varyingRig();
    varying.chooseKind('merge');
    await Promise.resolve();
    expect([weigh.open, varying.isWeighing]).toEqual([undefined, false]);
    expect(varying.outcome).toEqual({ variant: undefined, refused: undefined });
  });

  it('goes on from what was taken, and forgets what was shown of before', async () => {
    const { varying, weigh, answer } = varyingRig();
    await answer();
    varying.take(varying.outcome.variant!);
    expect(varying.outcome.variant).toBeUndefined();
    expect([varying.base.groupingText, varying.original.groupingText]).toEqual(['L K R', 'R L K']);
    const { original, base } = weigh.open!.job;
    expect([original, base]).toEqual([draftOf(phrase), draftOf(varying.base)]);
    varying.backTo(0);
    expect(varying.base).toBe(phrase);
  });

  it('says so when the work fails, and works on', async () => {
    const { varying, weigh, answer } = varyingRig();
    weigh.open!.fail();
    await expect.poll(() => varying.problem).toContain('could not be worked out');
    expect([varying.outcome.variant, varying.isWeighing]).toEqual([undefined, false]);
    varying.chooseKind('mirror');
    await answer();
    expect([varying.problem, varying.outcome.variant!.sentence]).toEqual([
      undefined,
      'Right and left hand are exchanged.',
    ]);
  });

  it.each([
    ['4/4', 300],
    ['7/8', 600],
  ])('has no tempo that a phrase in %s cannot have', (meter, most) => {
    const { varying } = varyingRig(phraseOf({ meter }));
    varying.setBpm(7);
    expect(varying.bpm).toBe(30);
    varying.setBpm(9999);
    expect(varying.bpm).toBe(most);
  });
});

describe('proposing', () => {
  function proposingRig() {
    const propose = new AskedByHand<Parameters<typeof proposalsOf>[0], Proposals>();
    let base = phrase;
    let bpm = 90;
    const proposing = new Proposing({
      original: phrase,
      base: () => base,
      bpm: () => bpm,
      propose,
    });
    return {
      propose,
      proposing,
      answer: () => propose.answer(proposalsOf),
      setBpm: (next: number) => {
        bpm = next;
        void proposing.draw();
      },
      moveTo: (next: typeof phrase) => {
        base = next;
        void proposing.draw();
      },
    };
  }

  it('keeps the list while other limits are looked at, and drops it for another phrase', async () => {
    const { proposing, answer, moveTo } = proposingRig();
    expect(proposing.isDrawing).toBe(true);
    await answer();
    const count = proposing.found.length;
    expect(count).toBeGreaterThan(0);
    proposing.set({ highestDifficulty: 50 });
    expect([proposing.found.length, proposing.isDrawing]).toEqual([count, true]);
    moveTo(proposing.found[0]!.phrase);
    expect(proposing.found).toEqual([]);
  });

  it('offers nothing of the old list that is too fast at a new tempo', async () => {
    const { proposing, answer, setBpm } = proposingRig();
    await answer();
    const slowest = Math.min(...proposing.found.map(({ upToBpm }) => upToBpm));
    expect(slowest).toBeLessThan(290);
    setBpm(slowest + 1);
    expect(proposing.isDrawing).toBe(true);
    expect(proposing.found.length).toBeGreaterThan(0);
    for (const { upToBpm } of proposing.found) expect(upToBpm).toBeGreaterThan(slowest);
  });

  it('takes whole seeds only, and comes round after the highest', () => {
    const { proposing, propose } = proposingRig();
    for (const seed of [-1, 1.5, NaN, HIGHEST_SEED + 1]) proposing.setSeed(seed);
    expect(proposing.seed).toBe(1);
    proposing.setSeed(HIGHEST_SEED);
    proposing.others();
    expect([proposing.seed, propose.open!.job.seed]).toEqual([0, 0]);
  });

  it('says so when the work fails', async () => {
    const { proposing, propose } = proposingRig();
    propose.open!.fail();
    await expect.poll(() => proposing.problem).toContain('try another seed');
    expect([proposing.found, proposing.isDrawing]).toEqual([[], false]);
  });
});

describe('keeping', () => {
  const FULL = storeProblem('FULL');

  it('keeps each variation once at a tempo, numbers them, and tells what the store said', async () => {
    const phrases: LibraryPhrase[] = [];
    const keeping = new OwnVariations({
      get phrases() {
        return phrases;
      },
      add: async (one) => {
        const id = `own-${phrases.length + 1}`;
        phrases.push({ id, phrase: one, text: '', own: true });
        return { id, problem: phrases.length > 1 ? FULL : undefined };
      },
    });
    await keeping.keep(phrase, 80);
    await keeping.keep(phrase, 80);
    await keeping.keep(phrase, 70);
    expect(phrases.map((one) => [one.phrase.title, one.phrase.tempoBpm])).toEqual([
      ['Slip Rope, variation 1', 80],
      ['Slip Rope, variation 2', 70],
    ]);
    expect(keeping.find(phrase, 70)).toEqual({
      id: 'own-2',
      title: 'Slip Rope, variation 2',
      problem: FULL.message,
    });
    const afterReload = new OwnVariations({
      phrases,
      add: () => Promise.reject(new Error('added again')),
    });
    expect(afterReload.find(phrase, 80)?.id).toBe('own-1');
    await afterReload.keep(phrase, 80);
    phrases.length = 1;
    expect(keeping.find(phrase, 70), 'removed again').toBeUndefined();
  });
});
