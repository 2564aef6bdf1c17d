import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { mountShell } from '../mount-shell';

const start = page.getByTestId('start');
const byHand = () =>
  mountShell('#practise', ({ inputs }) => inputs.choosePlayer('keyboard and pads'));

describe('practising on the computer keyboard', () => {
  it('does not stop when the bass drum is struck after the start button', async () => {
    const parts = await byHand();
    await start.click();
    await userEvent.keyboard(' ');
    expect(parts.session.status).toBe('playing');
  });

  it('leaves the space bar to the bass drum after the tempo, a layer or a pad was clicked', async () => {
    const parts = await byHand();
    await start.click();
    await page.getByRole('button', { name: 'Faster' }).click();
    await userEvent.keyboard(' ');
    expect(parts.session.choices.tempoBpm).toBe(97);
    await page.getByTestId('layer-step').nth(2).click();
    await page.getByTestId('layer-step').nth(1).click();
    expect(document.activeElement).toBe(document.body);
    await page.getByRole('button', { name: 'snare', exact: true }).click();
    await userEvent.keyboard(' ');
    expect(parts.inputs.struck).toHaveLength(1);
  });

  it('stops with the escape key, and says so', async () => {
    const parts = await byHand();
    await start.click();
    await expect.element(page.getByText('Esc: stop')).toBeInTheDocument();
    await userEvent.keyboard('{Escape}');
    expect(parts.session.status).toBe('idle');
    await userEvent.keyboard('{Escape}');
    expect(parts.session.status).toBe('idle');
  });

  it('writes the keys on the pads', async () => {
    await byHand();
    const snare = page.getByRole('button', { name: 'snare', exact: true });
    await expect.element(snare).toHaveTextContent('F J');
  });
});
