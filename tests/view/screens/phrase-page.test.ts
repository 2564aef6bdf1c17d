import { describe, expect, it, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { acrossBar } from '../../../src/notation/across-bar';
import { parsePhrase } from '../../../src/phrase/file/parse-phrase';
import { writePhrases } from '../../../src/phrase/file/phrase-list';
import { fitForm } from '../../../src/phrase/form/fit-form';
import { realignment } from '../../../src/phrase/layers/realignment';
import { changeWords } from '../../../src/phrase/model/change-words';
import { BAR_HEIGHT } from '../../../src/view/across/bar-lines';
import { barWords, realignmentWords } from '../../../src/view/across/bar-words';
import { FIT_NAMES, formTempoWords, leftOverWords } from '../../../src/view/across/fit-words';
import { playability } from '../../../src/phrase/playability/playability';
import { notesWords, rateWords, upToWords } from '../../../src/view/phrase/playability-words';
import { mountShell } from '../mount-shell';

const open = (name: string) => page.getByRole('heading', { level: 2, name }).click();
const texts = (testid: string) =>
  page
    .getByTestId(testid)
    .elements()
    .map((element) => element.textContent.trim().replace(/\s+/g, ' '));

describe('across the bar', () => {
  it('is a picture with words, and a table that says the same', async () => {
    const { library } = await mountShell('#phrases/quay-steps');
    const { phrase } = library.find('quay-steps')!;
    // 20 sixteenths over bars of 16: every cycle one beat later, five bars (lcm 80).
    const meeting = realignment(phrase, 5);
    expect(meeting).toMatchObject({ cycles: 4, bars: 5 });
    await expect.element(page.getByText(realignmentWords(meeting))).toBeVisible();
    await expect.poll(() => texts('across-bar')[0]).toContain('pickup: R on 4&, L on 4a');
    const across = acrossBar(phrase, 5);
    expect(texts('across-bar')[2]).toContain(barWords(2, across.partials(16, 16), across));
    await page.getByText('Where each cycle starts, as a table').click();
    const rows = [...page.getByTestId('cycle-starts').element().querySelectorAll('tbody tr')];
    expect(rows.map((row) => [...row.children].map((cell) => cell.textContent))).toEqual([
      ['1', '1', '1', '1', 'position 1'],
      ['2', '2', '2', '2', 'position 17'],
      ['3', '3', '3', '3', 'position 13'],
      ['4', '4', '4', '4', 'position 9'],
    ]);
  });

  it('is heard with the click', async () => {
    const { audition } = await mountShell('#phrases/quay-steps');
    await page.getByRole('button', { name: 'Hear layer 5 with the click' }).click();
    expect(audition.heard).toMatchObject({ layer: 5, click: true });
    await page.getByRole('button', { name: '2 Accents' }).click();
    await expect.poll(() => audition.heard?.layer).toBe(2);
    await page.getByRole('button', { name: 'Stop layer 2 with the click' }).click();
    expect(audition.key).toBeUndefined();
  });

  it('scrolls inside its own box when it takes hundreds of bars, and draws only what is seen', async () => {
    let id = '';
    await mountShell('#phrases', async ({ library }) => {
      const parsed = parsePhrase(
        JSON.stringify({
          title: 'Long Tide',
          meter: '32/4',
          tempoBpm: 60,
          subdivision: 12,
          grouping: 'R L',
          cycle: 511,
          layers: [{ name: 'Sticking' }],
        }),
      );
      if (!parsed.ok) throw new Error('Long Tide cannot be read');
      ({ id } = await library.add(parsed.value));
    });
    location.hash = `#phrases/${id}`;
    const box = page.getByTestId('across');
    await expect.element(box).toBeVisible();
    const element = box.element();
    await expect.poll(() => texts('across-bar').length).toBeGreaterThan(2);
    expect(texts('across-bar').length).toBeLessThan(12);
    // Whole bars are in sight, and a shade at the foot says that there are more.
    expect(element.clientHeight % BAR_HEIGHT).toBe(0);
    expect(getComputedStyle(element).backgroundImage).toContain('linear-gradient');
    expect(element.scrollHeight).toBeGreaterThan(500 * 100);
    element.scrollTop = element.scrollHeight;
    await expect.poll(() => texts('across-bar').at(-1)).toMatch(/^Bar 511: /);
    expect(texts('across-bar').length).toBeLessThan(12);
    expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(innerWidth);
  });
});

describe('fit to a form', () => {
  it('offers every way, each heard and used as a layer', async () => {
    const { audition, library } = await mountShell('#phrases/quay-steps');
    await open('Fit to a form');
    // 8 bars of 16 hold 6 cycles of 20 and 8 partials, by Euclid's division.
    const left = { formPartials: 128, cycles: 6, remainingPartials: 8 };
    await expect.element(page.getByTestId('left-over')).toHaveTextContent(leftOverWords(left, 20));
    const { fits } = fitForm(library.find('quay-steps')!.phrase, 5, 8);
    expect(fits.map(({ kind }) => kind)).toEqual([
      'cut the last cycle',
      'rest first',
      'start displaced',
      'add a tail',
    ]);
    await expect
      .poll(() => texts('fit'))
      .toEqual(
        fits.map(({ kind, sentence }) => expect.stringMatching(`^${FIT_NAMES[kind]} ${sentence}`)),
      );
    await page.getByRole('button', { name: 'Hear Add a tail, with the click' }).click();
    expect(audition.heard?.phrase.layers.at(-1)?.name).toBe('Tail');
    await page.getByRole('button', { name: 'Hear from bar 7, Rest first, with the click' }).click();
    expect(audition.heard).toMatchObject({ fromBar: 7, click: true });
    await page.getByRole('button', { name: 'Use in a new phrase: Rest first' }).click();
    const title = 'Quay Steps in 8 bars, rest first';
    await expect.element(page.getByTestId('kept').getByRole('link', { name: title })).toBeVisible();
    const kept = library.phrases.find(({ phrase }) => phrase.title === title)!;
    expect(kept.own).toBe(true);
    expect(kept.phrase.layers.map(({ name }) => name)).toEqual([
      'Sticking',
      'Accents',
      'Toms',
      'Pickup',
      'Ghosts',
      'Rest first',
    ]);
    await page.getByRole('link', { name: title }).click();
    await expect.element(page.getByRole('heading', { level: 1, name: title })).toBeVisible();
    const later = changeWords({ kind: 'displace', displace: 8 });
    await expect.element(page.getByText(later)).toBeVisible();
  });

  it('is asked for by keyboard: other bars, another beat, from the table', async () => {
    const { library } = await mountShell('#phrases/quay-steps');
    await open('Fit to a form');
    const leftOver = page.getByTestId('left-over');
    const bars = page.getByLabelText('Bars of the form');
    await bars.fill('1');
    const none = { formPartials: 16, cycles: 0, remainingPartials: 16 };
    await expect.element(leftOver).toHaveTextContent(leftOverWords(none, 20));
    const { refused } = fitForm(library.find('quay-steps')!.phrase, 5, 1);
    expect(refused.map(({ kind }) => kind)).toEqual(['rest first', 'add a tail']);
    expect(texts('no-fit')).toEqual(
      refused.map(({ kind, reason }) =>
        expect.stringMatching(`^${FIT_NAMES[kind]}\\b.*${reason}$`),
      ),
    );
    await bars.fill('33');
    await expect.element(page.getByRole('alert')).toHaveTextContent('1 to 32 bars');
    await page.getByText('What 1 to 32 bars leave over').click();
    const five = page
      .getByTestId('left-over-table')
      .getByRole('button', { name: '5 bars', exact: true });
    five.element().focus();
    await userEvent.keyboard('{Enter}');
    await expect.element(bars).toHaveValue(5);
    await expect.poll(() => texts('fit')).toEqual([expect.stringContaining('As it is')]);
    expect(page.getByTestId('use-fit').elements()).toEqual([]);
    await page.getByLabelText('Resolve on').selectOptions('beat 3 of the last bar');
    // Four bars and two beats are 72 partials: 3 cycles and 12 partials.
    const inner = { formPartials: 72, cycles: 3, remainingPartials: 12 };
    await expect.element(leftOver).toHaveTextContent(leftOverWords(inner, 20));
  });
});

describe('fit to a form at a tempo', () => {
  it('leads to the tempo at which a way is open, and uses it there', async () => {
    let id = '';
    const { audition, library } = await mountShell('#phrases', async ({ library }) => {
      const parsed = parsePhrase(
        JSON.stringify({
          title: 'One Oar',
          meter: '4/4',
          tempoBpm: 120,
          subdivision: 4,
          grouping: 'R R R',
          layers: [{ name: 'Sticking' }],
        }),
      );
      if (!parsed.ok) throw new Error('One Oar cannot be read');
      ({ id } = await library.add(parsed.value));
    });
    location.hash = `#phrases/${id}`;
    await open('Fit to a form');
    // Sixteenths with one hand at 105 bpm: 105 / 60 * 4 = 7 a second, the most that is kept up (Fujii et al., Neurosci.
    // Lett. 459, 2009, abstract).
    await expect.poll(() => texts('no-fit').length).toBe(4);
    await page.getByRole('button', { name: 'Rest first at 105 bpm' }).click();
    await expect.poll(() => texts('fit').length).toBe(4);
    const words = formTempoWords(library.find(id)!.phrase, 105);
    await expect.element(page.getByTestId('fit-tempo')).toHaveTextContent(words);
    await page.getByRole('button', { name: 'Hear Rest first, with the click' }).click();
    expect(audition.heard?.phrase.tempoBpm).toBe(105);
    const before = library.phrases.length;
    await page.getByRole('button', { name: 'Use as a layer: Rest first' }).click();
    const added = page.getByTestId('layer-added');
    await expect.element(added).toHaveTextContent('Layer 2, Rest first, is added to One Oar.');
    const phrase = () => library.find(id)!.phrase;
    expect(phrase()).toMatchObject({ title: 'One Oar', tempoBpm: 105 });
    expect(phrase().layers.map(({ name }) => name)).toEqual(['Sticking', 'Rest first']);
    expect(library.phrases).toHaveLength(before);
    await added.getByRole('button', { name: 'Take it back' }).click();
    await expect.poll(() => phrase().layers.length).toBe(1);
    expect(phrase().tempoBpm).toBe(120);
  });
});

describe('playability', () => {
  it('says at a tempo what stands in the way, which notes, and from which tempo on', async () => {
    const { library } = await mountShell('#phrases/three-bollards');
    const { phrase } = library.find('three-bollards')!;
    const fast = playability(phrase, phrase.layers.length, 300);
    await open('Playability');
    await expect.element(page.getByTestId('up-to')).toHaveTextContent(upToWords(fast, 300));
    expect(texts('problem')).toEqual([]);
    const slow = Number(page.getByTestId('difficulty').element().textContent);
    await page.getByLabelText('At a tempo of, bpm').fill('300');
    await expect.poll(() => texts('problem').length).toBeGreaterThan(0);
    expect(texts('problem')).toEqual(
      fast.problems.map(({ sentence, notes }) => `${sentence} ${notesWords(notes)}`),
    );
    const marked = page.getByRole('img', { name: /in the way/ });
    await expect.element(marked).toBeVisible();
    expect(Number(page.getByTestId('difficulty').element().textContent)).toBeGreaterThan(slow);
    await page.getByLabelText('At a tempo of, bpm').fill('20');
    await expect.element(page.getByRole('alert')).toHaveTextContent('30 to 300');
  });

  it('puts each limb against the published rates', async () => {
    await mountShell('#phrases/quay-steps');
    await open('Playability');
    await page.getByLabelText('At a tempo of, bpm').fill('60');
    // By hand: at 60 bpm a sixteenth is a quarter of a second. In R L R L K eight strokes of a hand span 17 sixteenths,
    // 7 intervals in 4.25 s; the foot strikes every 5 sixteenths, 0.8 a second.
    const rows = () =>
      [...page.getByTestId('limb-rates').element().querySelectorAll('tbody tr')].map((row) =>
        [...row.children].map((cell) => cell.textContent.trim()),
      );
    await expect
      .poll(() => rows().map(([limb]) => limb))
      .toEqual(['right hand', 'left hand', 'right foot']);
    const limbs = ['R', 'L', 'K'] as const;
    rows().forEach(([, rate, words], i) => {
      const perSecond = Number(rate);
      expect(perSecond).toBeGreaterThan(0);
      expect(perSecond).toBeLessThan(2.1);
      expect(words).toBe(rateWords({ limb: limbs[i]!, perSecond }));
    });
  });
});

describe('the leading hand', () => {
  const changed = { leadingHand: 'changed' } as const;
  const sticking = () =>
    [...page.getByTestId('positions').element().querySelectorAll('tbody tr')][1]!.textContent
      .replace(/\s+/g, ' ')
      .trim();

  it('is the player’s on the page of a phrase, until it is taken back', async () => {
    const { session, library } = await mountShell('#phrases/quay-steps', ({ session }) =>
      session.choose(changed),
    );
    const { groupingText } = library.find('quay-steps')!.phrase;
    const other = groupingText.replace(/[RL]/g, (hand) => (hand === 'R' ? 'L' : 'R'));
    expect(other).not.toBe(groupingText);
    await expect.element(page.getByText(other, { exact: true })).toBeVisible();
    const led = sticking();
    const staff = () => page.getByTestId('score-line').element().textContent;
    const ledStaff = staff();
    await page.getByRole('button', { name: 'As written' }).click();
    expect(session.choices.leadingHand).toBe('as written');
    await expect.element(page.getByText(groupingText, { exact: true })).toBeVisible();
    await expect.element(page.getByTestId('led')).not.toBeInTheDocument();
    expect(staff()).not.toBe(ledStaff);
    const swapped = led.replace(/[RL]/g, (hand) => (hand === 'R' ? 'L' : 'R'));
    expect(sticking()).toBe(swapped);
  });

  it('is not the one of a phrase that is saved or sent', async () => {
    const saved: Promise<string>[] = [];
    vi.spyOn(URL, 'createObjectURL').mockImplementation((file) => {
      saved.push((file as Blob).text());
      return 'about:blank';
    });
    vi.spyOn(HTMLAnchorElement.prototype, 'click').mockReturnValue();
    const { library } = await mountShell('#phrases/quay-steps', ({ session }) =>
      session.choose(changed),
    );
    await page.getByTestId('save-phrases').click();
    expect(await Promise.all(saved)).toEqual([writePhrases([library.find('quay-steps')!.phrase])]);
    vi.restoreAllMocks();
  });

  it('changes nothing of what is kept: a form is fitted to the phrase as written', async () => {
    const { library } = await mountShell('#phrases/quay-steps', ({ session }) =>
      session.choose(changed),
    );
    await open('Fit to a form');
    const before = library.phrases.length;
    await page.getByTestId('use-fit').first().click();
    await expect.poll(() => library.phrases.length).toBe(before + 1);
    const made = library.phrases.find(({ own }) => own)!;
    expect(made.phrase.groupingText).toBe(library.find('quay-steps')!.phrase.groupingText);
  });

  it.each(['compose', 'vary'])('is told where it is not followed: %s', async (screen) => {
    const { session } = await mountShell(`#${screen}/quay-steps`, ({ session }) =>
      session.choose(changed),
    );
    const note = page.getByTestId('hands-as-written');
    await expect.element(note).toHaveTextContent('The hands are shown as written');
    session.choose({ leadingHand: 'as written' });
    await expect.element(note).not.toBeInTheDocument();
  });
});
