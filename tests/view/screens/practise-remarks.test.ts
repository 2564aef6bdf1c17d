import { expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { mountShell } from '../mount-shell';
import { sampleStats, figures } from '../sample-stats';
import { simulatedTake } from '../sample-takes';
import { summaryOf } from '../../../src/practice/take-scoring';

it('waits with what stands out until the take is over, where that is chosen', async () => {
  const { session } = await mountShell('#practise', ({ session }) => {
    session.status = 'playing';
    session.stats = sampleStats({ finding: '', advice: '' });
  });
  await expect.element(page.getByTestId('finding')).toHaveTextContent('Listening.');
  await expect.element(page.getByTestId('advice')).toHaveTextContent('said after the take');
  session.stats = sampleStats();
  await expect.element(page.getByTestId('finding')).toHaveTextContent('Left hand 9 ms late.');
});

it('chooses how often what stands out is said', async () => {
  const { session } = await mountShell('#practise');
  const settings = page.getByTestId('settings');
  await expect.element(settings).toBeInTheDocument();
  settings.element().querySelector('summary')!.click();
  await page.getByTestId('remarks').selectOptions('after the take');
  expect(session.choices.remarks).toBe('after the take');
});

it('asks first, then tells, after every take anew', async () => {
  const overall = figures({ meanMs: 12 });
  const { session } = await mountShell('#practise', ({ session }) => {
    session.choose({ guessFirst: true });
    session.stats = sampleStats({ overall });
    const take = simulatedTake(session.entry!, '2026-11-30T08:00:00.000Z');
    session.lastTake = { ...summaryOf(take)!, id: 'a' };
  });
  await expect.element(page.getByTestId('guess')).toBeInTheDocument();
  await expect.element(page.getByTestId('finding')).not.toBeInTheDocument();
  await page.getByRole('button', { name: 'early', exact: true }).click();
  await expect
    .element(page.getByTestId('guessed'))
    .toHaveTextContent('Guessed: early. Played: 12 ms late on average.');
  await expect.element(page.getByTestId('finding')).toHaveTextContent('Left hand 9 ms late.');
  session.stats = sampleStats({ overall });
  await expect.element(page.getByTestId('guess')).toBeInTheDocument();
});
