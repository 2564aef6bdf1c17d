import { expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { mountShell } from '../../mount-shell';
import { sampleStats, figures } from '../../sample-stats';
import { simulatedTake } from '../../sample-takes';
import { summaryOf } from '../../../../src/practice/takes/take-scoring';

it('waits with what stands out until the take is over, where that is chosen', async () => {
  const { session } = await mountShell('#practise', ({ session }) => {
    session.status = 'playing';
    session.stats = sampleStats({ finding: '', advice: '' });
  });
  await expect.element(page.getByTestId('finding')).toHaveTextContent('The take goes on.');
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
  const { session, store } = await mountShell('#practise', async ({ session, store }) => {
    session.choose({ guessFirst: true });
    session.stats = sampleStats({ overall });
    const take = simulatedTake(session.entry!, '2026-11-30T08:00:00.000Z');
    session.lastTake = (await store.add(take, summaryOf(take)!)).summary;
  });
  await expect.element(page.getByTestId('guess')).toBeInTheDocument();
  await expect.element(page.getByTestId('finding')).not.toBeInTheDocument();
  await page.getByRole('button', { name: 'early', exact: true }).click();
  await expect
    .element(page.getByTestId('guessed'))
    .toHaveTextContent('Guessed: early. Played: 12 ms late on average.');
  await expect.element(page.getByTestId('finding')).toHaveTextContent('Left hand 9 ms late.');
  const { id } = session.lastTake!;
  await expect
    .poll(() => store.get(id))
    .toMatchObject({ value: { guess: 'early', player: 'kit' } });
  session.stats = sampleStats({ overall });
  await expect.element(page.getByTestId('guess')).toBeInTheDocument();
});

it('says up to which tempo the layer of the last take is even, over all takes', async () => {
  const { takes } = await mountShell('#practise', async ({ session, store }) => {
    const take = simulatedTake(session.entry!, '2026-11-30T08:00:00.000Z');
    const summary = summaryOf(take)!;
    const at = (bpm: number, code: string, finding: string) => ({
      ...summary,
      trials: [{ ...summary.trials![0]!, bpm, code, finding }],
    });
    await store.add(take, at(92, 'even', 'Even.'));
    const later = { ...at(96, 'drift', 'Rushing: 18 ms over 8 bars.'), startedAt: '2026-11-30T09' };
    session.lastTake = (await store.add(take, later)).summary;
  });
  await takes.refresh();
  await expect
    .element(page.getByTestId('by-tempo'))
    .toHaveTextContent(
      'Layer 5 by tempo, all takes: Even to 92; at 96, rushing: 18 ms over 8 bars.',
    );
});
