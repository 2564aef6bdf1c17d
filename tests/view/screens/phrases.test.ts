import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { mountShell } from '../mount-shell';

describe('the phrases', () => {
  it('are listed with what they are made of', async () => {
    await page.viewport(1280, 800);
    const parts = await mountShell('#phrases');
    const rows = page.getByTestId('phrase-row');
    await expect.element(rows.first()).toBeVisible();
    expect(rows.elements()).toHaveLength(parts.library.phrases.length);
    const row = rows.filter({ hasText: 'Quay Steps' }).element();
    const shown = () =>
      [...row.querySelectorAll<HTMLElement>('th, td')]
        .map((cell) => cell.innerText.trim().replace(/\s+/g, ' '))
        .filter((text) => text !== '');
    expect(shown()).toEqual([
      'Quay Steps R L R L K',
      'sixteenths',
      '4/4',
      '20',
      'after 5 bars',
      '5',
      'grouping of 5, accents, ghosts, toms, pickup',
    ]);
  });

  it('say the same on a phone, where there is no room for the columns', async () => {
    await page.viewport(390, 844);
    await mountShell('#phrases');
    const row = page.getByTestId('phrase-row').filter({ hasText: 'Quay Steps' });
    await expect.element(row).toBeVisible();
    expect((row.element() as HTMLElement).innerText.replace(/\s+/g, ' ').trim()).toBe(
      'Quay Steps R L R L K sixteenths, 4/4, cycle of 20, realigns after 5 bars, 5 layers grouping of 5, accents, ghosts, toms, pickup',
    );
    const frame = page.getByRole('region', { name: 'Phrases' }).element();
    expect(frame.scrollWidth).toBeLessThanOrEqual(frame.clientWidth);
    await page.viewport(1280, 800);
  });

  it('tell what the table of positions is where the table is wider than the phone', async () => {
    await page.viewport(390, 844);
    await mountShell('#phrases/quay-steps');
    const caption = page.getByText('The cycle, partial by partial');
    await expect.element(caption).toBeVisible();
    expect(caption.element().getBoundingClientRect().right).toBeLessThanOrEqual(390);
    await page.viewport(1280, 800);
  });

  it('show layers and positions', async () => {
    await mountShell('#phrases/quay-steps');
    await expect.element(page.getByText('positions 1, 8, 11, 18: as accents')).toBeVisible();
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
    await input.upload(file('{ "title": "Adrift", "meter": "4/3" }', 'adrift.json'));
    await expect
      .element(page.getByTestId('import-told'))
      .toHaveTextContent('adrift.json, "meter": The text "4/3" is not a meter');
    const good = parts.library.find('low-water')!;
    await input.upload(file(good.text.replace('Low Water', 'Lower Water'), 'lower.json'));
    await expect
      .element(page.getByTestId('import-told'))
      .toHaveTextContent('lower.json is in the list.');
    await expect.element(page.getByRole('link', { name: 'Lower Water' })).toBeVisible();
  });

  it('say so when there is none at the address', async () => {
    await mountShell('#phrases/sunken');
    await expect
      .element(page.getByRole('heading', { level: 1 }))
      .toHaveTextContent('No such phrase');
  });
});
