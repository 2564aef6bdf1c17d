import { expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { scripts } from '../../../package.json';
import { mountShell } from '../mount-shell';

it('says how to keep what was played, and leads to where that is done', async () => {
  await mountShell('#help');
  const heading = (name: string) => page.getByRole('heading', { name, exact: true });
  await expect.element(heading('Keeping what was played')).toBeVisible();
  const command = page.getByText(/^npm run -s \w+ -- TAKE\.json$/).element().textContent;
  expect(Object.keys(scripts)).toContain(command.split(' ')[3]);
  await page.getByRole('link', { name: 'What is kept' }).click();
  await expect.element(heading('Put it back, or open a take')).toBeVisible();
  await expect.element(page.getByRole('button', { name: 'Save a backup' })).toBeVisible();
});
