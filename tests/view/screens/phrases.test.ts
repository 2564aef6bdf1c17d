import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { checkPhrase } from '../../../src/phrase/file/parse-phrase';
import { changeWords } from '../../../src/phrase/model/change-words';
import { covers } from '../../../src/view/phrase/covers';
import { realignsText } from '../../../src/view/phrase/phrase-line';
import { mountShell } from '../mount-shell';

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
      realignsText(phrase, 5),
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
    const facts = ['R L R L K', 'sixteenths', '4/4', '20', realignsText(phrase, 5), '5'];
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

  it('come in from a file, or the exact faults of the file are told', async () => {
    const parts = await mountShell('#phrases');
    const input = page.getByLabelText('A phrase file, JSON');
    const file = (text: string, name: string) =>
      new File([text], name, { type: 'application/json' });
    const adrift = { title: 'Adrift', meter: '4/3' };
    const checked = checkPhrase(adrift);
    const problems = page.getByTestId('import-told').getByRole('listitem');
    await input.upload(file(JSON.stringify(adrift), 'adrift.json'));
    await expect.element(problems.first()).toBeVisible();
    expect(problems.elements().map((one) => one.textContent)).toEqual(
      checked.ok ? [] : checked.errors.map(({ message }) => expect.stringContaining(message)),
    );
    await expect
      .element(problems.filter({ hasText: '4/3' }))
      .toHaveTextContent(/^adrift\.json, "meter": /);
    const good = parts.library.find('low-water')!;
    await input.upload(file(good.text.replace('Low Water', 'Lower Water'), 'lower.json'));
    await expect.element(page.getByTestId('import-told')).toHaveTextContent(/^lower\.json\b/);
    expect(problems.elements()).toEqual([]);
    await expect.element(page.getByRole('link', { name: 'Lower Water' })).toBeVisible();
  });

  it('say so when there is none at the address', async () => {
    await mountShell('#phrases/sunken');
    await expect
      .element(page.getByRole('heading', { level: 1, name: 'No such phrase' }))
      .toBeVisible();
  });
});
