import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { LEARN_STEPS } from '../../../src/kit/learn/learn-steps';
import { MIDI_STATES, type MidiStateKind } from '../../../src/midi/midi-problems';
import type { StrokeSink } from '../../../src/midi/stroke-source';
import { mountShell } from '../mount-shell';

describe('the kit screen', () => {
  it('tells every state of the connection in a sentence with what to do', async () => {
    const { inputs } = await mountShell('#kit');
    for (const kind of Object.keys(MIDI_STATES) as MidiStateKind[]) {
      inputs.port.kind = kind;
      const { sentence, remedy } = inputs.port.state;
      const told = () => page.getByTestId('midi-state').element().textContent?.trim();
      const words = remedy === '' ? sentence : `${sentence} ${remedy}`;
      // The first of the file waits for the screen's own script too.
      await expect.poll(told, { timeout: 10_000 }).toBe(words);
    }
  });

  it('connects on a click and lets the kit play', async () => {
    const { inputs } = await mountShell('#kit', (parts) => {
      parts.inputs.port.kind = 'ask';
      parts.inputs.player = 'simulated player';
    });
    await page.getByTestId('midi-connect').click();
    expect(inputs.player).toBe('kit');
    await expect
      .element(page.getByTestId('midi-state'))
      .toHaveTextContent(inputs.port.state.sentence);
    expect(inputs.port.state.kind).toBe('ready');
  });

  it('shows the last stroke, mapped or not', async () => {
    const { inputs } = await mountShell('#kit');
    inputs.monitor.heard = { note: 38, voice: 'snare', velocity: 104 };
    await expect.element(page.getByTestId('last-stroke')).toHaveTextContent('snare');
    await expect.element(page.getByText(/\b38\b.*\b104\b.*\baccent\b/)).toBeVisible();
    inputs.monitor.heard = { note: 91, voice: undefined, velocity: 20 };
    await expect.element(page.getByText(/\b91\b.*\b20\b/)).toBeVisible();
    await expect.element(page.getByTestId('last-stroke')).not.toHaveTextContent('snare');
  });

  it('tells of pads that send one velocity, and of no other fault', async () => {
    const sentence = '“Snare” sent one velocity (100) for 12 strokes.';
    const { inputs } = await mountShell('#kit');
    inputs.monitor.faults = [
      {
        fault: 'hot spot',
        pad: 42,
        count: 40,
        sentence: 'Hi-hat: 127.',
        advice: 'Lower the gain.',
      },
      { fault: 'one velocity', pad: 38, count: 12, sentence, advice: 'Choose another curve.' },
    ];
    const told = page.getByTestId('one-velocity');
    await expect.element(page.getByText('Strike a pad')).toBeVisible();
    expect(told.elements()).toEqual([]);
    inputs.monitor.heard = { note: 38, voice: 'snare', velocity: 100 };
    await expect.element(told).toHaveTextContent(`${sentence} Choose another curve.`);
  });

  it('asks what a note is that the map does not know, but not while the pads are learned', async () => {
    const { inputs } = await mountShell('#kit', (parts) => {
      parts.inputs.monitor.unknown = [
        { note: 31, strokes: 5 },
        { note: 91, strokes: 1 },
      ];
    });
    const notes = page.getByTestId('new-notes');
    await expect
      .element(notes)
      .toHaveTextContent("Note 31, struck 5 times, is not on your kit's map.");
    await page.getByLabelText('Note 91 is').selectOptions('cowbell');
    await notes.getByRole('button', { name: 'Put it on the note map' }).last().click();
    expect(inputs.mapped).toEqual([{ note: 91, voice: 'cowbell' }]);
    await page.getByTestId('learn').click();
    await expect.element(notes).not.toBeInTheDocument();
  });

  it('learns a kit from one stroke a pad', async () => {
    const { inputs, firstStart } = await mountShell('#kit', ({ firstStart }) =>
      firstStart.rememberPads({ has: ['high tom'], lacks: ['bass drum', 'ride'] }),
    );
    await page.getByTestId('learn').click();
    await expect.element(page.getByTestId('learn-ask')).toHaveTextContent(LEARN_STEPS[0]!.ask);
    inputs.listener!(0, 0x99, 35, 90);
    inputs.listener!(500, 0x99, 31, 90);
    await page.getByRole('button', { name: 'Not on my kit' }).click();
    await page.getByLabelText('Name of the kit').fill('Boathouse');
    await page.getByRole('button', { name: 'Keep this kit' }).click();
    await expect.element(page.getByRole('status').filter({ hasText: /^Boathouse/ })).toBeVisible();
    expect(inputs.saved?.title).toBe('Boathouse');
    expect(inputs.saved?.pads.map(({ note, voice }) => [note, voice])).toEqual([
      [35, 'bass drum'],
      [31, 'snare'],
    ]);
    expect(inputs.listener).toBeUndefined();
    // What is said last of a pad holds, and what was not asked for stays.
    const asked = ['bass drum', 'snare', 'high tom', 'ride'] as const;
    expect(firstStart.struck(asked)).toEqual(['bass drum', 'snare', 'high tom']);
    expect(firstStart.lacking(asked)).toEqual(['ride']);
  });
});

describe('what is learned by striking', () => {
  const parts = ['learn', 'learn-levels', 'learn-crosstalk'];
  it.each(parts)('has the focus, and all of it in sight, from %s on', async (begin) => {
    await page.viewport(1440, 900);
    await mountShell('#kit');
    const button = page.getByTestId(begin);
    await button.click();
    const ask = page.getByTestId(`${begin}-ask`);
    await expect.element(ask).toHaveFocus();
    const section = ask.element().closest('section')!.getBoundingClientRect();
    expect(section.top).toBeGreaterThanOrEqual(-1);
    expect(section.bottom).toBeLessThanOrEqual(900);
    await page.getByRole('button', { name: 'Cancel' }).click();
    await expect.element(button).toHaveFocus();
  });

  it.each(parts)('listens to nothing any more once %s is left with the page', async (begin) => {
    const { inputs, route } = await mountShell('#kit');
    await page.getByTestId(begin).click();
    expect(inputs.listener).toBeDefined();
    route.go('help');
    await expect.element(page.getByTestId(`${begin}-ask`)).not.toBeInTheDocument();
    expect(inputs.listener).toBeUndefined();
  });

  it('calls a pad by its voice too where its name does not tell it', async () => {
    const { inputs } = await mountShell('#kit');
    await page.getByTestId('learn').click();
    for (const [i, note] of [36, 38, 40, 37, 48, 50, 45].entries())
      inputs.listener!(i * 500, 0x99, note, 90);
    await expect.element(page.getByText(/tom 2 head \(mid tom\).*\b45\b/)).toBeVisible();
    await expect.element(page.getByTestId('learn-ask')).toHaveTextContent(LEARN_STEPS[7]!.ask);
  });
});

describe('learning the levels of a pad', () => {
  const strike = (
    inputs: { listener: StrokeSink | undefined },
    note: number,
    velocities: number[],
  ) => {
    for (const velocity of velocities) inputs.listener!(0, 0x99, note, velocity);
  };

  it('puts the limits between the strokes, on a copy of a built-in kit', async () => {
    const { inputs } = await mountShell('#kit');
    await page.getByTestId('learn-levels').click();
    await expect.element(page.getByTestId('learn-levels-ask')).toHaveTextContent('ghosts');
    strike(inputs, 38, [20, 22, 24, 26, 28, 30]);
    // Another pad that shakes along is not listened to.
    strike(inputs, 36, [127]);
    await expect.element(page.getByTestId('learn-levels-ask')).toHaveTextContent('taps');
    strike(inputs, 38, [60, 62, 64, 66, 68, 70]);
    strike(inputs, 38, [100, 102, 104, 106, 108, 110]);
    // Middle of the gaps 30 to 60 and 70 to 100: worked by hand.
    await expect.element(page.getByTestId('learn-levels-ask')).toHaveTextContent(/\b44\b.*\b85\b/);
    await page.getByRole('button', { name: 'Keep these limits' }).click();
    expect(inputs.saved?.title).toBe('Common electronic kit, my levels');
    expect(inputs.saved?.pads.find(({ note }) => note === 38)).toMatchObject({
      ghostMax: 44,
      accentMin: 85,
    });
    expect(inputs.listener).toBeUndefined();
  });

  it('keeps them for the pads like it, or for the one alone', async () => {
    const { inputs } = await mountShell('#kit');
    const learn = async () => {
      await page.getByTestId('learn-levels').click();
      strike(inputs, 48, [20, 22, 24, 26, 28, 30, 60, 62, 64, 66, 68, 70]);
      strike(inputs, 48, [100, 102, 104, 106, 108, 110]);
    };
    const learned = () =>
      inputs.saved!.pads.filter(({ ghostMax }) => ghostMax === 44).map(({ note }) => note);
    await learn();
    await page.getByRole('button', { name: 'Keep these limits for all pads like it' }).click();
    expect(learned()).toEqual([38, 48, 45, 43, 41]);
    await learn();
    await page.getByRole('button', { name: 'For this pad only' }).click();
    expect(learned()).toEqual([48]);
  });

  it('asks again when the levels are not played apart', async () => {
    const { inputs } = await mountShell('#kit');
    await page.getByTestId('learn-levels').click();
    for (let level = 0; level < 3; level++) strike(inputs, 38, [60, 62, 64, 66, 68, 70]);
    await expect
      .element(page.getByRole('button', { name: 'Keep these limits' }))
      .not.toBeInTheDocument();
    await page.getByRole('button', { name: 'Begin again' }).click();
    await expect.element(page.getByTestId('learn-levels-ask')).toHaveTextContent('ghosts');
  });
});
