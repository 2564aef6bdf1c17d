import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { render } from 'vitest-browser-svelte';
import '../../../src/view/theme/theme.css';
import NumberField from '../../../src/view/fields/NumberField.svelte';

const field = page.getByLabelText('seed', { exact: true });

/** A field from 0 to 9 that shows what was chosen last. */
async function mountField(
  more: { readonly most?: number; readonly steps?: boolean; readonly leaveOut?: () => void } = {},
) {
  const chosen: (number | undefined)[] = [];
  const show = (value: number | undefined) => {
    chosen.push(value);
    void screen.rerender({ value });
  };
  const screen = await render(NumberField, {
    label: 'seed',
    value: 4,
    least: 0,
    most: 9,
    whole: true,
    choose: show,
    ...more,
    ...(more.leaveOut && { leaveOut: () => show(undefined) }),
  });
  return { chosen, show };
}

async function type(text: string) {
  await field.fill(text);
  await userEvent.tab();
}

describe('a field for a number', () => {
  it('takes no number outside its range and no fraction, and says what it takes', async () => {
    const { chosen } = await mountField();
    for (const text of ['10', '-1', '2.5', '']) {
      await type(text);
      await expect
        .element(page.getByRole('alert'))
        .toHaveTextContent('Type a whole number from 0 to 9.');
      await expect.element(field).toHaveAttribute('aria-invalid', 'true');
    }
    await type('9');
    expect(chosen).toEqual([9]);
    expect(page.getByRole('alert').elements()).toEqual([]);
  });

  it('says from which number on, where there is no end', async () => {
    await mountField({ most: Infinity });
    await type('-1');
    await expect
      .element(page.getByRole('alert'))
      .toHaveTextContent('Type a whole number from 0 on.');
    await type('10');
    expect(page.getByRole('alert').elements()).toEqual([]);
  });

  it('no longer refuses once another value is shown in place of what was typed', async () => {
    const { show } = await mountField();
    await type('10');
    await expect.element(page.getByRole('alert')).toBeVisible();
    show(5);
    await expect.element(field).toHaveValue(5);
    expect(page.getByRole('alert').elements()).toEqual([]);
  });

  it('steps by one within its range', async () => {
    const { chosen } = await mountField({ steps: true });
    await type('8');
    await page.getByRole('button', { name: 'More: seed' }).click();
    await expect.element(page.getByRole('button', { name: 'More: seed' })).toBeDisabled();
    await page.getByRole('button', { name: 'Less: seed' }).click();
    expect(chosen).toEqual([8, 9, 8]);
  });

  it('is left empty where that is allowed', async () => {
    const { chosen } = await mountField({ leaveOut: () => undefined });
    await type('');
    expect(chosen).toEqual([undefined]);
    expect(page.getByRole('alert').elements()).toEqual([]);
    await type('12');
    await expect
      .element(page.getByRole('alert'))
      .toHaveTextContent('Type a whole number from 0 to 9, or leave it empty.');
  });
});
