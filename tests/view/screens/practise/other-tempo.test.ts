import { expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { practisePhrase } from '../../../../src/view/phrase/practise-phrase';
import { mountShell } from '../../mount-shell';
import type { StubParts } from '../../stub-parts';

const row = () => page.getByTestId('other-tempo');
const button = (name: string) => row().getByRole('button', { name, exact: true });
/** As a finding's "practise the layer slower" starts it: of 88 three quarters. */
const slower = (parts: StubParts) =>
  practisePhrase(parts, parts.session.entry!, { layer: 2, tempoBpm: 88, atBpm: 66 });

it('a layer that a finding asks for slower goes slower from there, and back, in one press each', async () => {
  const parts = await mountShell('#practise');
  await slower(parts);
  const { session } = parts;
  expect(session.choices).toMatchObject({ layer: 2, tempoBpm: 66 });
  await expect.element(row()).toHaveTextContent('Practice at 66; the layer goes on at 88.');
  button('Slower: 50').element().focus();
  await userEvent.keyboard('{Enter}');
  expect(session.choices.tempoBpm).toBe(50);
  button('Back to 88').element().focus();
  await userEvent.keyboard('{Enter}');
  expect(session.choices.tempoBpm).toBe(88);
  await expect.element(row()).not.toBeInTheDocument();
});

it('is forgotten with another layer, and with a tempo that is the layer’s own', async () => {
  const parts = await mountShell('#practise');
  await slower(parts);
  await expect.element(row()).toBeVisible();
  parts.session.choose({ layer: 3 });
  await expect.element(row()).not.toBeInTheDocument();
  await practisePhrase(parts, parts.session.entry!, { layer: 1, tempoBpm: 88, atBpm: 88 });
  expect(parts.session.choices.tempoToComeBack).toBeUndefined();
});
