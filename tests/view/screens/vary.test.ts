import { afterEach, describe, expect, it, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { draftOf } from '../../../src/phrase/model/phrase-draft';
import { MAX_CYCLE } from '../../../src/phrase/model/phrase-file';
import { outcomeOf, phraseOfDraft } from '../../../src/phrase/vary/outcome';
import { TWIST_KINDS, type SentTwist } from '../../../src/phrase/vary/twist-settings';
import { loosenWords } from '../../../src/view/screens/vary/limit-words';
import { TWIST_WORDS } from '../../../src/view/screens/vary/twist-words';
import { hashOf } from '../../../src/view/shell/route';
import { phraseOf } from '../../phrase/phrase-of';
import { mountShell } from '../mount-shell';
import type { StubParts } from '../stub-parts';

const outcome = page.getByTestId('outcome');
const sentence = outcome.getByTestId('sentence');
const proposals = page.getByTestId('proposal');
const choose = (name: string) => page.getByRole('radio', { name }).click();
const proposed = () => proposals.elements().map((one) => one.querySelector('h3')!.textContent);
const letters = (label: string) =>
  [...outcome.getByRole('figure', { name: label }).element().querySelectorAll('text.letter')].map(
    (text) => text.textContent,
  );
const quaySteps = ({ library }: StubParts) => library.find('quay-steps')!.phrase;
const ownPhrases = ({ library }: StubParts) => library.phrases.filter(({ own }) => own);
/** What a twist comes to, whose sentences the page is to show; twists of the original unless told otherwise. */
const weighed = (
  original: Phrase,
  twist: SentTwist,
  { base = original, bpm = original.tempoBpm } = {},
) => outcomeOf({ ask: 'twist', original: draftOf(original), base: draftOf(base), twist, bpm });
const sentenceOf = (original: Phrase, twist: SentTwist) =>
  weighed(original, twist).variation!.sentence;
/** The limits that are set, as they stand when their fields are folded away. */
const limitsSet = () =>
  page.getByTestId('limits').element().querySelector('summary')!.textContent.trim();

/** Unfolds the limits once all has come: what arrives above would move them from under the pointer. */
async function openLimits(): Promise<void> {
  await expect.poll(() => proposed().length, { timeout: 10_000 }).toBe(8);
  await page.getByText('Limits:').click();
  await expect.element(page.getByTestId('limits')).toHaveAttribute('open');
}

afterEach(() => vi.unstubAllGlobals());

describe('varying by hand', () => {
  it('keeps the places of what is worked out for the first time', async () => {
    class NeverAnswers {
      postMessage() {}
      terminate() {}
    }
    vi.stubGlobal('Worker', NeverAnswers);
    await mountShell('#vary/three-bollards');
    const heightOf = (label: string) =>
      outcome.getByRole('figure', { name: label }).element().getBoundingClientRect().height;
    await expect.poll(() => letters('The original').length, { timeout: 10_000 }).toBeGreaterThan(0);
    expect(heightOf('The variation')).toBeCloseTo(heightOf('The original'), 0);
    for (const figure of ['distance', 'difficulty', 'up-to'])
      expect(outcome.getByTestId(figure).element().textContent).toBe('–');
    expect(outcome.getByRole('status').element().textContent.trim()).toBe('Working it out.');
    expect(page.getByTestId('proposals-told').element().textContent).toBe(
      'Looking for variations.',
    );
  });

  it('shows the outcome as a score beside the original, in a sentence and figures', async () => {
    const { library } = await mountShell('#vary/three-bollards');
    const { phrase } = library.find('three-bollards')!;
    await expect.element(sentence).toHaveTextContent(sentenceOf(phrase, { kind: 'rotate', by: 1 }));
    await expect.element(outcome.getByTestId('distance').first()).toHaveTextContent(/^\d/);
    await expect.poll(() => letters('The variation').length).toBeGreaterThan(0);
    const before = letters('The original');
    expect(letters('The variation').toSorted()).toEqual(before.toSorted());
    expect(letters('The variation')).not.toEqual(before);
  });

  it('has both score lines on a screen of 1440 by 900', async () => {
    await page.viewport(1440, 900);
    await mountShell('#vary/quay-steps');
    await expect
      .poll(() => letters('The variation').length, { timeout: 10_000 })
      .toBeGreaterThan(0);
    const bottom = () => page.getByTestId('score-pair').element().getBoundingClientRect().bottom;
    await expect.poll(bottom, { timeout: 10_000 }).toBeLessThanOrEqual(900);
    await page.viewport(390, 844);
    await expect.element(outcome).toBeVisible();
    expect(document.documentElement.scrollWidth).toBe(390);
    await page.viewport(1440, 900);
  });

  it('says how far away and how hard, on a scale', async () => {
    await mountShell('#vary/quay-steps');
    await choose(TWIST_WORDS.rotate.name);
    const scaleOf = (testid: string) =>
      outcome.getByTestId(testid).element().previousElementSibling!.textContent.trim();
    await expect.element(outcome.getByTestId('distance')).toHaveTextContent(/^11\.5$/);
    // A cycle of 20 partials has 20 strokes: R L R L K without a rest.
    expect(scaleOf('distance')).toMatch(/\b20\b/);
    expect(scaleOf('difficulty')).toMatch(/\b88\b.*\b100\b.*\b27$/);
  });

  it('has what is varied heard and shown beside, even while there is no variation', async () => {
    const { audition } = await mountShell('#vary/quay-steps');
    await choose(TWIST_WORDS.merge.name);
    await expect.element(outcome.getByRole('figure', { name: 'The original' })).toBeVisible();
    expect(outcome.getByRole('figure', { name: 'The variation' }).elements()).toEqual([]);
    await page.getByRole('button', { name: 'Hear the original, for comparison' }).click();
    expect(audition.heard!.phrase.groupingText).toBe('R L R L K');
    await choose(TWIST_WORDS.mirror.name);
    await outcome.getByTestId('further').click();
    await expect.poll(() => audition.heard!.phrase.groupingText).toMatch(/^L R/);
    await expect.element(page.getByRole('button', { name: 'Stop for comparison' })).toBeVisible();
  });

  it('has every twist that the engine knows, each with an outcome or a reason', async () => {
    await mountShell('#vary/quay-steps');
    const told = new Set<string>();
    for (const kind of TWIST_KINDS) {
      await choose(TWIST_WORDS[kind].name);
      if (kind === 'merge') {
        const other = page.getByLabelText('the other phrase');
        await expect.element(other).toHaveValue('');
        const advice = () => other.element().closest('label')!.nextElementSibling;
        expect(advice()!.textContent).toMatch(/\.$/);
        await other.selectOptions('Low Water');
        expect(advice()).toBeNull();
      }
      await expect
        .poll(() => outcome.element().getAttribute('aria-busy'), { timeout: 10_000 })
        .toBe('false');
      told.add(outcome.getByRole('status').getByRole('paragraph').first().element().textContent);
    }
    expect(told.size).toBe(TWIST_KINDS.length);
    for (const one of told) expect(one).toMatch(/^[A-Z].+\.$/);
  });

  it('follows its settings, and refuses what is no setting where it is typed', async () => {
    const parts = await mountShell('#vary/quay-steps');
    const seven = sentenceOf(quaySteps(parts), { kind: 'cycle', cycle: 7 });
    await choose(TWIST_WORDS.cycle.name);
    const cycle = page.getByLabelText(/^partials in the cycle/);
    await cycle.fill('7');
    await userEvent.tab();
    await expect.element(sentence).toHaveTextContent(seven);
    await cycle.fill('0');
    await userEvent.tab();
    await expect.element(cycle).toHaveAttribute('aria-invalid', 'true');
    await expect.element(outcome.getByRole('alert')).toHaveTextContent(String(MAX_CYCLE));
    await expect.element(sentence).toHaveTextContent(seven);
  });

  it('says at which tempo what is too fast could be played, and slows down to it', async () => {
    const parts = await mountShell('#vary/quay-steps');
    const tempo = page.getByLabelText('tempo, bpm', { exact: true });
    await tempo.fill('200');
    await userEvent.tab();
    await choose(TWIST_WORDS['double strokes'].name);
    const refused = page.getByTestId('refused');
    await expect.element(refused.getByRole('paragraph').first()).toHaveTextContent(/\b200\b/);
    const doubled = weighed(quaySteps(parts), { kind: 'double strokes' }, { bpm: 200 });
    for (const reason of doubled.refused!.reasons)
      await expect.element(refused).toHaveTextContent(reason);
    expect(outcome.getByTestId('keep').elements()).toEqual([]);
    expect(outcome.getByRole('button', { name: /this variation/ }).elements()).toEqual([]);
    await refused.getByRole('button', { name: /\b112\b/ }).click();
    await expect.element(outcome.getByTestId('keep')).toBeVisible();
    expect(refused.elements()).toEqual([]);
    await expect.element(tempo).toHaveValue(112);
    await expect.element(outcome).toHaveFocus();
  });

  it('is not offered while it is weighed at a tempo that it is known not to bear', async () => {
    await mountShell('#vary/quay-steps');
    await choose(TWIST_WORDS['double strokes'].name);
    await expect.element(outcome.getByTestId('up-to')).toHaveTextContent('112 bpm');
    const offered = () => outcome.getByTestId('keep').elements().length;
    expect(offered()).toBe(1);
    const seen: number[] = [];
    const watch = new MutationObserver(() => {
      if (outcome.element().getAttribute('aria-busy') === 'true') seen.push(offered());
    });
    watch.observe(outcome.element(), { subtree: true, childList: true, attributes: true });
    await page.getByLabelText('tempo, bpm', { exact: true }).fill('200');
    await userEvent.tab();
    await expect.element(page.getByTestId('refused')).toBeVisible();
    watch.disconnect();
    expect(seen.length).toBeGreaterThan(0);
    expect(Math.max(...seen)).toBe(0);
  });

  it('is heard at the tempo set, and the sound ends with what it was of', async () => {
    const parts = await mountShell('#vary/quay-steps');
    const { audition } = parts;
    await outcome.getByRole('button', { name: 'Hear this variation' }).click();
    expect(audition.heard!.bpm).toBe(88);
    await page.getByRole('button', { name: 'More: tempo, bpm' }).click();
    await expect.poll(() => audition.heard!.bpm).toBe(89);
    await choose(TWIST_WORDS.mirror.name);
    await expect
      .element(sentence)
      .toHaveTextContent(sentenceOf(quaySteps(parts), { kind: 'mirror' }));
    await expect.poll(() => audition.heard!.phrase.groupingText).toMatch(/^L R/);
    await choose(TWIST_WORDS.merge.name);
    await expect.poll(() => audition.key).toBeUndefined();
  });

  it('is kept under a title of its own, once, and practised', async () => {
    const parts = await mountShell('#vary/quay-steps');
    await page.getByRole('button', { name: 'More: tempo, bpm' }).click();
    await outcome.getByTestId('keep').click();
    const status = outcome.getByTestId('kept');
    await expect.element(status).toHaveTextContent(/\b89\b/);
    const [kept] = ownPhrases(parts);
    expect([kept!.phrase.title, kept!.phrase.tempoBpm]).toEqual(['Quay Steps, variation 1', 89]);
    await expect.element(status).toHaveTextContent(kept!.phrase.title);
    await expect
      .element(status.getByRole('link'))
      .toHaveAttribute('href', hashOf('compose', kept!.id));
    expect(outcome.getByTestId('keep').elements()).toEqual([]);
    await expect.element(outcome.getByTestId('practise')).toHaveFocus();
    await outcome.getByTestId('practise').click();
    await expect.poll(() => location.hash).toBe('#practise');
    expect(parts.session.entry!.id).toBe(kept!.id);
  });

  it('goes on from a variation, and back', async () => {
    const original = quaySteps(await mountShell('#vary/quay-steps'));
    const mirror = { kind: 'mirror' } as const;
    const mirrored = weighed(original, mirror).variation!;
    await choose(TWIST_WORDS.mirror.name);
    await expect.element(sentence).toHaveTextContent(mirrored.sentence);
    await outcome.getByTestId('further').click();
    const trail = page.getByTestId('trail');
    await expect.element(trail).toHaveFocus();
    await expect.element(trail).toHaveTextContent(mirrored.sentence);
    const twice = weighed(original, mirror, { base: phraseOfDraft(mirrored.draft) });
    await expect.element(page.getByTestId('refused')).toHaveTextContent(twice.refused!.reasons[0]!);
    await expect.element(outcome.getByTestId('from-step')).toHaveTextContent(/^\d/);
    await expect.element(outcome.getByRole('figure', { name: 'Step 1' })).toBeVisible();
    await page.getByRole('button', { name: 'Undo the last step' }).click();
    await expect.element(outcome.getByRole('figure', { name: 'The original' })).toBeVisible();
    expect(page.getByTestId('refused').elements()).toEqual([]);
  });
});

describe('what was left', () => {
  it('is as it was when the phrase is varied again, and the original is a step back', async () => {
    const parts = await mountShell('#vary/quay-steps');
    const mirrored = sentenceOf(quaySteps(parts), { kind: 'mirror' });
    await page.getByRole('button', { name: 'More: tempo, bpm' }).click();
    await choose(TWIST_WORDS.mirror.name);
    await expect.element(sentence).toHaveTextContent(mirrored);
    await outcome.getByTestId('further').click();
    await choose(TWIST_WORDS.displace.name);
    await page.getByTestId('others').click();
    await openLimits();
    await page.getByRole('checkbox', { name: 'crash' }).click();
    await expect.element(page.getByTestId('proposals-told')).toHaveTextContent(/\b2\b/);
    const before = proposed();
    location.hash = '#log';
    await expect.element(page.getByRole('heading', { level: 1, name: 'Log' })).toBeVisible();
    location.hash = '#vary/quay-steps';
    await expect.element(page.getByTestId('trail')).toHaveTextContent(mirrored);
    await expect.element(page.getByLabelText('tempo, bpm', { exact: true })).toHaveValue(89);
    await expect
      .element(page.getByRole('radio', { name: TWIST_WORDS.displace.name }))
      .toBeChecked();
    expect(limitsSet()).toMatch(/\b11\b.*\b12\b/);
    await expect.poll(proposed, { timeout: 10_000 }).toEqual(before);
    await page.getByRole('button', { name: 'Undo the last step' }).click();
    await expect.element(outcome.getByRole('figure', { name: 'The original' })).toBeVisible();
  });
});

describe('proposals', () => {
  it('are the same whenever the seed is, each with a sentence and its distance', async () => {
    await mountShell('#vary/quay-steps');
    await expect.poll(() => proposed().length, { timeout: 10_000 }).toBe(8);
    const first = proposed();
    for (const one of proposals.elements()) {
      expect(one.querySelector('h3')!.textContent).toMatch(/\.$/);
      expect(one.querySelector('[data-testid=distance]')!.textContent).toMatch(/^\d/);
    }
    const told = page.getByTestId('proposals-told');
    await page.getByTestId('others').click();
    await expect.element(told).toHaveTextContent(/\b2\b/);
    await expect.element(page.getByLabelText('seed', { exact: true })).toHaveValue(2);
    expect(proposed()).not.toEqual(first);
    await page.getByRole('button', { name: 'Less: seed' }).click();
    await expect.element(told).toHaveTextContent(/\b1\b/);
    expect(proposed()).toEqual(first);
  });

  it('keep within limits; where there are none it says what to loosen', async () => {
    await mountShell('#vary/quay-steps');
    await openLimits();
    await page.getByRole('checkbox', { name: 'hi-hat pedal' }).click();
    await expect.poll(limitsSet).toMatch(/\b11\b.*\b12\b/);
    const difficulty = page.getByLabelText('highest difficulty');
    await difficulty.fill('1');
    await userEvent.tab();
    const loosened = loosenWords({ limit: 'highestDifficulty', found: 8, figures: [0] });
    await expect
      .element(page.getByTestId('loosen'), { timeout: 10_000 })
      .toHaveTextContent(loosened.split(' at 0')[0]!);
    expect(proposed()).toEqual([]);
    await difficulty.fill('');
    await userEvent.tab();
    await expect.poll(() => proposed().length, { timeout: 10_000 }).toBe(8);
  });

  it('go without limits again when they are lifted', async () => {
    await mountShell('#vary/quay-steps');
    await openLimits();
    expect(page.getByTestId('lift').elements()).toEqual([]);
    await page.getByRole('checkbox', { name: 'left foot' }).click();
    await page.getByLabelText(/^at most this far/).fill('6');
    await userEvent.tab();
    await expect.poll(limitsSet).toMatch(/\b3\b.*\b4\b.*\b6\b/);
    await page.getByTestId('lift').click();
    await expect.poll(limitsSet).not.toMatch(/\d/);
    await expect.element(page.getByRole('checkbox', { name: 'left foot' })).toBeChecked();
    await expect.element(page.getByLabelText(/^at most this far/)).toHaveValue(null);
  });

  it('refuse a limit that is none', async () => {
    await mountShell('#vary/quay-steps');
    await openLimits();
    const least = page.getByLabelText(/^at least this far/);
    await least.fill('-1');
    await userEvent.tab();
    await expect.element(least).toHaveAttribute('aria-invalid', 'true');
    await expect.element(page.getByTestId('limits').getByRole('alert')).toBeVisible();
    expect(limitsSet()).not.toMatch(/\d/);
  });

  it('can be kept and varied further like what is made by hand', async () => {
    const parts = await mountShell('#vary/quay-steps');
    const first = proposals.first();
    await first.getByTestId('keep').click();
    await expect.element(first.getByTestId('practise')).toBeVisible();
    const own = ownPhrases(parts);
    expect(own).toHaveLength(1);
    await expect.element(first.getByTestId('kept')).toHaveTextContent(own[0]!.phrase.title);
    const [taken] = proposed();
    await first.getByTestId('further').click();
    await expect.element(page.getByTestId('trail')).toHaveTextContent(taken!);
  });
});

describe('where there is nothing to vary', () => {
  it('without a phrase there is a list to choose from', async () => {
    await mountShell('#vary');
    await page.getByRole('link', { name: 'Low Water' }).click();
    await expect
      .element(page.getByRole('heading', { level: 1, name: 'Variations of Low Water' }))
      .toBeVisible();
  });

  it('a phrase that is gone is told', async () => {
    await mountShell('#vary/sunken');
    await expect
      .element(page.getByRole('heading', { level: 1, name: 'No such phrase' }))
      .toBeVisible();
  });

  it('a phrase in which nothing sounds is told', async () => {
    const { library } = await mountShell('#vary', async ({ library }) => {
      const silent = {
        title: 'Dead Calm',
        meter: '4/4',
        tempoBpm: 60,
        subdivision: 1,
        grouping: 'R L',
        layers: [{ name: 'Rests', changes: [{ where: {}, set: { silent: true } }] }],
      };
      await library.add(phraseOf(silent));
    });
    await page.getByRole('link', { name: 'Dead Calm' }).click();
    await expect
      .element(page.getByRole('heading', { level: 1, name: 'Variations of Dead Calm' }))
      .toBeVisible();
    const [calm] = library.phrases.filter(({ own }) => own);
    await expect
      .element(page.getByRole('main').getByRole('link', { name: 'Open it in the composer' }))
      .toHaveAttribute('href', hashOf('compose', calm!.id));
    expect(outcome.elements()).toEqual([]);
  });
});
