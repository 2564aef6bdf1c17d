import { page, userEvent } from 'vitest/browser';
import { mountShell } from '../mount-shell';

export const field = (label: string) => page.getByLabelText(label, { exact: true });
export const button = (name: string) => page.getByRole('button', { name, exact: true });
export const layers = page.getByTestId('layer');
export const told = (testid: string) => page.getByTestId(testid);
export const names = () =>
  layers
    .elements()
    .map((one) => one.querySelector('button')!.textContent.trim().replace(/\s+/g, ' '));
export const faults = () =>
  page
    .getByTestId('faults')
    .elements()
    .map((one) => one.textContent.trim());
export const grid = page.getByTestId('position-grid');
export const row = (name: string) =>
  [...grid.element().querySelectorAll('tr')]
    .find((one) => one.querySelector('th')!.textContent === name)!
    .querySelectorAll('td');
export const cells = (name: string) => [...row(name)].map((cell) => cell.textContent.trim());
export const press = (keys: string) => userEvent.keyboard(keys);

export async function write(label: string, text: string) {
  await field(label).fill(text);
}

/** Seven sevens: two layers over a grouping of seven. */
export async function sevens() {
  const parts = await mountShell('#compose');
  await write('Title', 'Seven Piles');
  await write('Grouping', 'R L R R L L K');
  return parts;
}
