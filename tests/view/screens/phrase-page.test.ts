import axe from 'axe-core';
import { afterEach, describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { parsePhrase } from '../../../src/phrase/file/parse-phrase';
import { mountShell } from '../mount-shell';

const open = (name: string) => page.getByRole('heading', { level: 2, name }).click();
const texts = (testid: string) =>
  page
    .getByTestId(testid)
    .elements()
    .map((element) => element.textContent.trim().replace(/\s+/g, ' '));

afterEach(() => {
  delete document.documentElement.dataset['theme'];
});

describe('across the bar', () => {
  it('is a picture with words, and a table that says the same', async () => {
    await mountShell('#phrases/quay-steps');
    // 20 sixteenths over bars of 16: every cycle one beat later, five bars (lcm 80).
    await expect
      .element(page.getByText('meet again after 4 cycles, which is 5 bars'))
      .toBeVisible();
    await expect.poll(() => texts('across-bar')[0]).toContain('pickup: R on 4&, L on 4a');
    expect(texts('across-bar')[2]).toContain('Bar 2: cycle 2 starts on 2');
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
    await expect
      .element(page.getByTestId('left-over'))
      .toHaveTextContent('128 partials hold 6 cycles of 20; 8 partials are left over.');
    await expect
      .poll(() => texts('fit').map((text) => text.split('. ')[0]))
      .toEqual([
        expect.stringContaining('Cut the last cycle The last cycle is cut after 8 partials'),
        expect.stringContaining('Rest first The phrase rests for 8 partials first'),
        expect.stringContaining('Start inside the cycle The phrase starts 12 partials into'),
        expect.stringContaining('Add a tail After the last whole cycle a tail of 8 strokes'),
      ]);
    await page.getByRole('button', { name: 'Hear Add a tail, with the click' }).click();
    expect(audition.heard?.phrase.layers.at(-1)?.name).toBe('Tail');
    await page.getByRole('button', { name: 'Hear from bar 7, Rest first, with the click' }).click();
    expect(audition.heard).toMatchObject({ fromBar: 7, click: true });
    await page.getByRole('button', { name: 'Use as a layer: Rest first' }).click();
    const title = 'Quay Steps in 8 bars, rest first';
    await expect.element(page.getByTestId('kept')).toHaveTextContent(`${title} is among your`);
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
    await expect.element(page.getByText('the cycle starts 8 partials later')).toBeVisible();
  });

  it('is asked for by keyboard: other bars, another beat, from the table', async () => {
    await mountShell('#phrases/quay-steps');
    await open('Fit to a form');
    const bars = page.getByLabelText('Bars of the form');
    await bars.fill('1');
    await expect.element(page.getByTestId('left-over')).toHaveTextContent('16 partials hold 0');
    expect(texts('no-fit')).toEqual([
      'Rest first Not here. No whole cycle fits into 16 partials; choose more bars.',
      'Add a tail Not here. No whole cycle fits into 16 partials; choose more bars.',
    ]);
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
    await expect.element(page.getByTestId('left-over')).toHaveTextContent('72 partials hold 3');
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
    // Sixteenths with one hand: 7 a second, the most that is kept up (standards.md, 3), are 105 bpm.
    await expect.poll(() => texts('no-fit').length).toBe(4);
    await page.getByRole('button', { name: 'Rest first at 105 bpm' }).click();
    await expect.poll(() => texts('fit').length).toBe(4);
    await expect
      .element(page.getByTestId('fit-tempo'))
      .toHaveTextContent('at 105 bpm; the phrase itself is at 120 bpm');
    await page.getByRole('button', { name: 'Hear Rest first, with the click' }).click();
    expect(audition.heard?.phrase.tempoBpm).toBe(105);
    await page.getByRole('button', { name: 'Use as a layer: Rest first' }).click();
    await expect.element(page.getByTestId('kept')).toBeVisible();
    const made = library.phrases.find(({ phrase }) => phrase.title.startsWith('One Oar in'));
    expect(made?.phrase.tempoBpm).toBe(105);
  });
});

describe('playability', () => {
  it('says at a tempo what stands in the way, which notes, and from which tempo on', async () => {
    await mountShell('#phrases/three-bollards');
    await open('Playability');
    await expect.element(page.getByTestId('up-to')).toBeVisible();
    expect(texts('problem')).toEqual([]);
    const slow = Number(page.getByTestId('difficulty').element().textContent);
    await page.getByLabelText('At a tempo of, bpm').fill('300');
    await expect.poll(() => texts('problem').length).toBeGreaterThan(0);
    expect(texts('problem')[0]).toMatch(/above \d+ bpm.*position/);
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
    for (const [, rate, words] of rows()) {
      expect(Number(rate)).toBeLessThan(2.1);
      expect(words).toContain('below the 5 to 7 that a hand keeps up');
    }
    expect(rows()[2]![2]).toContain('none is known for feet');
  });
});

describe.each(['light', 'dark'] as const)('axe finds nothing, %s', (theme) => {
  it('with everything open, at a tempo that is too fast', async () => {
    const parts = await mountShell('#phrases/seven-fenders');
    parts.theme.choose(theme);
    await open('Playability');
    await page.getByLabelText('At a tempo of, bpm').fill('300');
    await open('Fit to a form');
    await page.getByLabelText('Bars of the form').fill('40');
    await page.getByRole('button', { name: 'Use as a layer: Rest first' }).click();
    await expect.element(page.getByTestId('kept')).toHaveTextContent('among your phrases');
    for (const details of document.querySelectorAll('details')) details.open = true;
    const found = await axe.run(document, { rules: { 'html-has-lang': { enabled: false } } });
    expect(found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
  });
});
