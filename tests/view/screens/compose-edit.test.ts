import { afterEach, describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { changeWords } from '../../../src/phrase/model/change-words';
import type { Selector } from '../../../src/phrase/model/phrase';
import { mountShell } from '../mount-shell';
import { button, field, layers, names, press, sevens } from './composer';

describe('undo, one thing at a time', () => {
  async function accentOnOne() {
    await sevens();
    await field('position').fill('1');
    await field('Level').selectOptions('accent');
    await button('Add as a new layer').click();
    await page.getByRole('button', { name: 'Edit “position 1: as accents”' }).click();
    return layers.nth(1);
  }
  const undo = () => press('{Control>}z{/Control}');
  const tellsOf = () => layers.nth(1).element().querySelector('.change p')!.textContent;
  const accented = (where: Selector) =>
    changeWords({ kind: 'set', where, set: { level: 'accent' } });

  it('takes back what one field of an open change was given, not what the field before was', async () => {
    const layer = await accentOnOne();
    await layer.getByLabelText('position', { exact: true }).fill('');
    await press('2, 3');
    await layer.getByLabelText('stroke of its limb').click();
    await press('1, 2');
    expect(tellsOf()).toBe(accented({ nth: [1, 2], positions: [2, 3] }));
    await undo();
    expect(tellsOf()).toBe(accented({ positions: [2, 3] }));
    await undo();
    expect(tellsOf()).toBe(accented({ positions: [1] }));
  });

  it('takes back each value that was chosen in a row', async () => {
    const layer = await accentOnOne();
    const level = layer.getByLabelText('Level', { exact: true });
    (level.element() as HTMLElement).focus();
    for (const value of ['ghost', 'tap']) await level.selectOptions(value);
    await undo();
    await expect.element(level).toHaveValue('ghost');
    await undo();
    await expect.element(level).toHaveValue('accent');
  });

  it('takes back a box that was ticked, and only that', async () => {
    const layer = await accentOnOne();
    const box = layer.getByLabelText('leave some of them out');
    await box.click();
    await box.click();
    await undo();
    await expect.element(box).toBeChecked();
    await undo();
    await expect.element(box).not.toBeChecked();
    expect(names()).toHaveLength(2);
  });

  it('takes typing back in two steps when the field was left in between', async () => {
    await sevens();
    await field('Title').click();
    await press('{End} of sand');
    await field('Meter').click();
    await field('Title').click();
    await press('{End} and salt');
    await expect.element(field('Title')).toHaveValue('Seven Piles of sand and salt');
    await undo();
    await expect.element(field('Title')).toHaveValue('Seven Piles of sand');
    await undo();
    await expect.element(field('Title')).toHaveValue('Seven Piles');
  });

  it('takes back each subdivision that was chosen', async () => {
    await sevens();
    for (const value of ['3', '6']) await field('Subdivision').selectOptions(value);
    await undo();
    await expect.element(field('Subdivision')).toHaveValue('3');
  });
});

describe('the form of a change, once opened,', () => {
  const heads = () => layers.nth(2).element().querySelectorAll('fieldset').length;

  it('goes where its layer goes', async () => {
    await mountShell('#compose/quay-steps');
    await button('3 Toms').click();
    await page
      .getByRole('button', { name: /^Edit “/ })
      .first()
      .click();
    await expect.element(page.getByRole('button', { name: /^Close “/ })).toBeVisible();
    const said = () =>
      page
        .getByRole('button', { name: /^Close “/ })
        .elements()
        .map((one) => one.getAttribute('aria-label'));
    const first = said();
    for (const tool of ['Move up', 'Move down', 'Move down', 'Merge with the next', 'Split']) {
      await button(tool).click();
      expect([tool, said()]).toEqual([tool, first]);
    }
  });

  it('is not that of the next change once its own is removed', async () => {
    await mountShell('#compose/quay-steps');
    await button('3 Toms').click();
    await page
      .getByRole('button', { name: /^Edit “/ })
      .first()
      .click();
    expect(heads()).toBeGreaterThan(0);
    await page
      .getByRole('button', { name: /^Remove “/ })
      .first()
      .click();
    expect(heads()).toBe(0);
    await press('{Control>}z{/Control}');
    expect(heads()).toBeGreaterThan(0);
  });
});

describe('the score line', () => {
  afterEach(() => page.viewport(1440, 900));

  it.each([
    [390, 844],
    [1440, 900],
  ])('stays in sight at %i by %i while a change low in the list is edited', async (...size) => {
    await page.viewport(...size);
    await mountShell('#compose/quay-steps');
    await button('5 Ghosts').click();
    await page.getByRole('button', { name: /^Edit “/ }).click();
    const level = layers.nth(4).getByLabelText('Level', { exact: true });
    level.element().scrollIntoView({ block: 'end' });
    await expect.poll(() => scrollY).toBeGreaterThan(100);
    const note = document.querySelector('[data-key="2/L"]')!.getBoundingClientRect();
    const top = document.elementFromPoint(note.x + note.width / 2, note.y + note.height / 2);
    expect(top?.closest('[data-key]')?.getAttribute('data-key')).toBe('2/L');
    await level.selectOptions('accent');
    await expect.element(page.getByRole('button', { name: /position 2\b.*accent/ })).toBeVisible();
  });

  it.each(['Grouping', 'Name of the layer', 'Change'])(
    'leaves the field %s in sight, below it, when the focus comes there',
    async (label) => {
      await page.viewport(390, 844);
      await mountShell('#compose/quay-steps');
      const element = field(label).element() as HTMLElement;
      const low = page.getByTestId('score-line').element().parentElement!.parentElement!;
      scrollBy({ top: 1000 });
      scrollBy({
        top: element.getBoundingClientRect().top - low.getBoundingClientRect().bottom + 40,
      });
      element.focus();
      const below = () => {
        const { x, top, bottom } = element.getBoundingClientRect();
        const seen = document.elementFromPoint(x + 20, top + 4);
        return [seen === element, bottom < 844];
      };
      await expect.poll(below).toEqual([true, true]);
    },
  );

  it('has undo, redo and its sound beside it', async () => {
    await mountShell('#compose/quay-steps');
    const staff = page.getByRole('region', { name: 'Layer 5, Ghosts' });
    for (const name of ['Undo', 'Redo', 'Hear layer 5, Quay Steps, copy'])
      await expect.element(staff.getByRole('button', { name, exact: true })).toBeVisible();
  });
});

it('the head of a phrase being written stays on one line of 1440 pixels', async () => {
  await page.viewport(1440, 900);
  await mountShell('#compose/net-mender');
  const top = (label: string) =>
    page.getByLabelText(label, { exact: true }).element().getBoundingClientRect().top;
  await expect.element(page.getByLabelText('Swing', { exact: true })).toBeVisible();
  await expect.poll(() => top('Swing')).toBe(top('Title'));
});

it('the fields of a phrase stay where they are on a phone with the first change', async () => {
  await page.viewport(390, 844);
  await mountShell('#compose');
  const grouping = page.getByLabelText('Grouping', { exact: true });
  await expect.element(grouping).toBeVisible();
  await expect.poll(() => document.querySelectorAll('.staff svg').length).toBeGreaterThan(0);
  const top = () => grouping.element().getBoundingClientRect().top;
  const before = top();
  await grouping.fill('R L L');
  await expect.element(page.getByTestId('kept-state')).toHaveTextContent('Kept on this machine.');
  expect(top()).toBe(before);
  await page.viewport(1440, 900);
});
