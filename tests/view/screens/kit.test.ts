import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { MIDI_STATES, type MidiStateKind } from '../../../src/midi/midi-problems';
import { mountShell } from '../mount-shell';

describe('the kit screen', () => {
  it('tells every state of the connection in a sentence with what to do', async () => {
    const { inputs } = await mountShell('#kit');
    for (const kind of Object.keys(MIDI_STATES) as MidiStateKind[]) {
      inputs.kind = kind;
      const { sentence, remedy } = inputs.midi;
      const told = () => page.getByTestId('midi-state').element().textContent?.trim();
      await expect.poll(told).toBe(remedy === '' ? sentence : `${sentence} ${remedy}`);
    }
  });

  it('connects on a click and lets the kit play', async () => {
    const { inputs } = await mountShell('#kit', (parts) => {
      parts.inputs.kind = 'ask';
      parts.inputs.player = 'simulated player';
    });
    await page.getByTestId('midi-connect').click();
    expect(inputs.player).toBe('kit');
    await expect.element(page.getByTestId('midi-state')).toHaveTextContent('Listening');
  });

  it('shows the last stroke, mapped or not', async () => {
    const { inputs } = await mountShell('#kit');
    inputs.heard = { note: 38, voice: 'snare', velocity: 104 };
    await expect.element(page.getByTestId('last-stroke')).toHaveTextContent('snare');
    await expect.element(page.getByText('note 38, velocity 104: accent')).toBeVisible();
    inputs.heard = { note: 91, voice: undefined, velocity: 20 };
    await expect.element(page.getByTestId('last-stroke')).toHaveTextContent('not on the note map');
  });

  it('learns a kit from one stroke a pad', async () => {
    const { inputs } = await mountShell('#kit');
    await page.getByTestId('learn').click();
    await expect.element(page.getByTestId('learn-ask')).toHaveTextContent('Play the bass drum.');
    inputs.listener!(0, 0x99, 35, 90);
    inputs.listener!(500, 0x99, 31, 90);
    await page.getByRole('button', { name: 'My kit has none' }).click();
    await page.getByLabelText('Name of the kit').fill('Boathouse');
    await page.getByRole('button', { name: 'Keep this kit' }).click();
    await expect.element(page.getByText('Boathouse is kept and chosen.')).toBeVisible();
    expect(inputs.saved?.title).toBe('Boathouse');
    expect(inputs.saved?.pads.map(({ note, voice }) => [note, voice])).toEqual([
      [35, 'bass drum'],
      [31, 'snare'],
    ]);
    expect(inputs.listener).toBeUndefined();
  });
});
