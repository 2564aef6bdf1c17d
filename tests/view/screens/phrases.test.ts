import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { parsePhrases } from '../../../src/phrase/file/phrase-list';
import { changeWords } from '../../../src/phrase/model/change-words';
import { covers } from '../../../src/phrase/layers/covers';
import { meetsBarLineText } from '../../../src/view/phrase/phrase-line';
import { targetKey } from '../../../src/phrase/layers/target-key';
import { summaryOf } from '../../../src/practice/takes/take-scoring';
import { mountShell } from '../mount-shell';
import { simulatedTake } from '../sample-takes';

describe('the phrases', () => {
  it('are listed with what they are made of', async () => {
    await page.viewport(1280, 800);
    const parts = await mountShell('#phrases');
    const rows = page.getByTestId('phrase-row');
    await expect.element(rows.first()).toBeVisible();
    expect(rows.elements()).toHaveLength(parts.library.phrases.length);
    const { phrase } = parts.library.find('quay-steps')!;
    const row = rows.filter({ hasText: phrase.title }).element();
    const shown = () =>
      [...row.querySelectorAll<HTMLElement>('th, td')]
        .map((cell) => cell.innerText.trim().replace(/\s+/g, ' '))
        .filter((text) => text !== '');
    expect(shown()).toEqual([
      `${phrase.title} R L R L K`,
      'sixteenths',
      '4/4',
      '20',
      meetsBarLineText(phrase, 5),
      '5',
      covers(phrase).join(', '),
    ]);
  });

  it('say the same on a phone, where there is no room for the columns', async () => {
    await page.viewport(390, 844);
    const { library } = await mountShell('#phrases');
    const { phrase } = library.find('quay-steps')!;
    const row = page.getByTestId('phrase-row').filter({ hasText: phrase.title });
    await expect.element(row).toBeVisible();
    const shown = (row.element() as HTMLElement).innerText.replace(/\s+/g, ' ').trim();
    const facts = ['R L R L K', 'sixteenths', '4/4', '20', meetsBarLineText(phrase, 5), '5'];
    // In this order, with words between.
    let rest = shown;
    for (const fact of [phrase.title, ...facts, covers(phrase).join(', ')]) {
      expect(rest).toContain(fact);
      rest = rest.slice(rest.indexOf(fact) + fact.length);
    }
    expect(rest).toBe('');
    const frame = page.getByRole('region', { name: 'Phrases' }).element();
    expect(frame.scrollWidth).toBeLessThanOrEqual(frame.clientWidth);
    await page.viewport(1280, 800);
  });

  it('tell what the table of positions is where the table is wider than the phone', async () => {
    await page.viewport(390, 844);
    await mountShell('#phrases/quay-steps');
    const caption = page.getByTestId('positions').getByRole('caption').getByText(/\w/);
    await expect.element(caption).toBeVisible();
    expect(caption.element().getBoundingClientRect().right).toBeLessThanOrEqual(390);
    await page.viewport(1280, 800);
  });

  it('show layers and positions', async () => {
    await mountShell('#phrases/quay-steps');
    const accents = changeWords({
      kind: 'set',
      where: { positions: [1, 8, 11, 18] },
      set: { level: 'accent' },
    });
    await expect.element(page.getByText(accents)).toBeVisible();
    const positions = page.getByTestId('positions').element();
    const row = (name: string) =>
      [...positions.querySelectorAll(`tr.${name} td`)].map((cell) => cell.textContent?.trim());
    expect(row('count').slice(0, 8)).toEqual(['1', 'e', '&', 'a', '2', 'e', '&', 'a']);
    expect(row('sticking').slice(0, 5)).toEqual(['R', 'L', 'R', 'L', 'K']);
    expect(row('voice')[7]).toBe('floor tom');
    expect(row('level').slice(0, 2)).toEqual(['accent', 'ghost']);
    await page.getByRole('button', { name: '1 Sticking' }).click();
    await expect.poll(() => row('level')[0]).toBe('tap');
  });

  it('are taken to the practise screen', async () => {
    const parts = await mountShell('#phrases/fog-signal');
    await page.getByTestId('practise-this').click();
    await expect.element(page.getByTestId('start')).toBeVisible();
    expect(parts.session.entry?.id).toBe('fog-signal');
    expect(location.hash).toBe('#practise');
  });

  it('are practised from the first layer on that is not passed yet', async () => {
    const { session, takes } = await mountShell(
      '#phrases/quay-steps',
      async ({ session, store, takes }) => {
        const take = simulatedTake(session.entry!, '2026-11-20T18:20:00.000Z');
        const summary = summaryOf(take)!;
        const [trial] = summary.trials!;
        const { phrase } = session.entry!;
        const trials = [1, 2, 4].map((layer) => ({
          ...trial!,
          layer,
          target: targetKey(phrase, layer),
          passed: true,
        }));
        await store.add(take, { ...summary, player: 'kit', trials });
        await takes.refresh();
        session.choose({ layer: 5 });
      },
    );
    expect(takes.summaries).toHaveLength(1);
    expect(session.entry?.id).toBe('quay-steps');
    await page.getByTestId('practise-this').click();
    await expect.element(page.getByTestId('start')).toBeVisible();
    expect(session.layer).toBe(3);
  });

  it('are saved as one file, one or several, those that are ticked', async () => {
    const saved: { name: string; text: Promise<string> }[] = [];
    vi.spyOn(URL, 'createObjectURL').mockImplementation((file) => {
      saved.push({ name: '', text: (file as Blob).text() });
      return 'about:blank';
    });
    vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (
      this: HTMLAnchorElement,
    ) {
      saved.at(-1)!.name = this.download;
    });
    const { library } = await mountShell('#phrases');
    const chosen = page.getByTestId('chosen-phrases');
    const save = chosen.getByTestId('save-phrases');
    await expect.element(chosen).toHaveTextContent(/^Tick phrases/);
    await page.getByLabelText('Choose Quay Steps').click();
    await save.click();
    await page.getByLabelText('Choose Low Water').click();
    await expect.element(chosen).toHaveTextContent(/^2 phrases chosen/);
    await save.click();
    await page.getByLabelText('Choose all phrases').click();
    await save.click();
    await chosen.getByRole('button', { name: 'Choose none' }).click();
    await expect.element(save).not.toBeInTheDocument();
    expect(saved.map(({ name }) => name)).toEqual([
      'quay-steps.json',
      '2-phrases.json',
      `${library.phrases.length}-phrases.json`,
    ]);
    const texts = await Promise.all(saved.map(({ text }) => text));
    const titles = texts.map((text) => {
      const read = parsePhrases(text);
      return read.ok ? read.value.map(({ title }) => title) : [];
    });
    const all = library.phrases.map(({ phrase }) => phrase.title);
    expect(titles).toEqual([['Quay Steps'], ['Low Water', 'Quay Steps'], all]);
    vi.restoreAllMocks();
  });

  it('say so when there is none at the address', async () => {
    await mountShell('#phrases/sunken');
    await expect
      .element(page.getByRole('heading', { level: 1, name: 'No such phrase' }))
      .toBeVisible();
  });
});
