import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { mountShell } from '../mount-shell';
import { figures, layerRow, sampleStats } from '../sample-stats';

const text = (testid: string) => page.getByTestId(testid);

describe('the practise screen', () => {
  it('shows phrase, tempo and layers, and dashes before anything was played', async () => {
    await mountShell('#practise');
    await expect.element(page.getByRole('heading', { level: 1 })).toHaveTextContent('Quay Steps');
    await expect.element(text('tempo')).toHaveValue(96);
    for (const figure of ['as-written', 'offset', 'spread', 'contrast', 'extras'])
      await expect.element(text(`figure-${figure}`)).toHaveTextContent('–');
    await expect.element(text('status')).toHaveTextContent('Stopped');
  });

  it('shows the figures of the last cycle, signed, with their side', async () => {
    const parts = await mountShell('#practise');
    parts.session.stats = sampleStats();
    await expect.element(text('figure-as-written')).toHaveTextContent('17 of 20');
    await expect.element(text('figure-offset')).toHaveTextContent('+3');
    await expect.element(page.getByText('offset, ms late')).toBeVisible();
    await expect.element(text('figure-spread')).toHaveTextContent('9');
    await expect.element(text('figure-contrast')).toHaveTextContent('17.8');
    await expect.element(text('figure-extras')).toHaveTextContent('2');
    await expect.element(text('finding')).toHaveTextContent('Left hand 9 ms late.');
    await expect.element(text('gate')).toHaveTextContent('about two more clean cycles');
    const remarks = text('remark')
      .elements()
      .map((remark) => remark.textContent);
    expect(remarks).toEqual([
      'Written ride, struck crash: two times.',
      "Set aside as the kit's fault and not yours: one double trigger and two crosstalk strokes.",
    ]);

    parts.session.stats = sampleStats({
      lastCycle: figures({ meanMs: undefined, spreadMs: undefined, asWritten: 0 }),
      lastCycleDynamics: { contrastDb: undefined, separation: undefined, accents: 0, ghosts: 0 },
    });
    await expect.element(text('figure-offset')).toHaveTextContent('–');
    await expect.element(text('figure-spread')).toHaveTextContent('–');
    await expect.element(text('figure-contrast')).toHaveTextContent('–');
    await expect.element(text('figure-as-written')).toHaveTextContent('0 of 20');
  });

  it('says before the start who is going to play', async () => {
    const parts = await mountShell('#practise');
    const told = text('advice');
    await expect.element(told).toHaveTextContent('Press start and play after the count-in.');
    parts.inputs.choosePlayer('simulated player');
    await expect.element(told).toHaveTextContent('the simulated player');
    await expect.element(told.getByRole('link')).toHaveAttribute('href', '#kit');
    parts.inputs.choosePlayer('file');
    await expect.element(told).toHaveTextContent('Choose the MIDI file under Playing');
  });

  it('says that the kit is away in place of figures nobody played, and goes back to them', async () => {
    const parts = await mountShell('#practise');
    parts.session.status = 'playing';
    parts.session.stats = sampleStats();
    parts.inputs.port.kind = 'unplugged';
    await expect.element(text('finding')).toHaveTextContent('Boathouse kit is unplugged.');
    await expect.element(text('advice')).toHaveTextContent('Plug it in again');
    parts.inputs.port.kind = 'ready';
    await expect.element(text('finding')).toHaveTextContent('Left hand 9 ms late.');
    parts.inputs.port.kind = 'ask';
    await expect.element(text('advice').getByRole('link')).toHaveAttribute('href', '#kit');
  });

  it('tells a cycle without a single stroke as silence, not as missed notes', async () => {
    const parts = await mountShell('#practise');
    parts.session.status = 'playing';
    parts.session.stats = sampleStats({
      lastCycle: figures({ answered: 0, timed: 0, missed: 20, asWritten: 0 }),
      cyclesPlayed: 2,
      extras: 0,
      overall: figures({ answered: 0, timed: 0, missed: 40, asWritten: 0 }),
    });
    await expect.element(text('finding')).toHaveTextContent('No stroke has arrived.');
  });

  it('has one row a layer, readable without the drawing', async () => {
    const parts = await mountShell('#practise');
    parts.session.stats = sampleStats({
      layers: [
        layerRow(1, 'Sticking', { figures: figures({ asWritten: 0.97, meanMs: -2.4 }) }),
        layerRow(2, 'Accents', { figures: undefined }),
      ],
    });
    await expect
      .element(text('layer-row').nth(0))
      .toHaveTextContent(/1 Sticking.*97.*−2 ms, spread 9 ms.*–/);
    await expect.element(text('layer-row').nth(1)).toHaveTextContent(/2 Accents.*–.*– ms/);
  });

  it('tells which layers are passed, played now, and still to come', async () => {
    const parts = await mountShell('#practise');
    parts.session.passed = [1];
    parts.session.choose({ layer: 2 });
    const steps = text('layer-step');
    await expect.element(steps.nth(0)).toHaveTextContent('passed');
    await expect.element(steps.nth(1)).toHaveTextContent('now');
    await expect.element(steps.nth(1)).toHaveAttribute('aria-current', 'step');
    await expect.element(steps.nth(2)).toHaveTextContent('not yet played');
    await steps.nth(3).click();
    expect(parts.session.choices.layer).toBe(4);
  });

  it('refuses a tempo out of range with a sentence and keeps the one before', async () => {
    const parts = await mountShell('#practise');
    await text('tempo').fill('301');
    await userEvent.tab();
    await expect.element(page.getByRole('alert')).toHaveTextContent('30 to 300');
    expect(parts.session.choices.tempoBpm).toBe(96);
    await text('tempo').fill('120');
    await userEvent.tab();
    expect(parts.session.choices.tempoBpm).toBe(120);
    await page.getByRole('button', { name: 'Slower' }).click();
    expect(parts.session.choices.tempoBpm).toBe(119);
  });

  it('says what the tempo counts where that is not quarters', async () => {
    const parts = await mountShell('#practise');
    await expect.element(page.getByRole('spinbutton', { name: 'bpm', exact: true })).toBeVisible();
    parts.session.choosePhrase(parts.library.find('crooked-pier')!);
    await expect.element(page.getByRole('spinbutton', { name: 'bpm in eighths' })).toBeVisible();
  });

  it('gives the space bar back once a tempo is entered', async () => {
    const parts = await mountShell('#practise');
    await text('tempo').fill('104');
    await userEvent.keyboard('{Enter}');
    expect(parts.session.choices.tempoBpm).toBe(104);
    await userEvent.keyboard(' ');
    expect(parts.session.status).toBe('playing');
  });

  it('starts and stops with the button, and folds the settings away while playing', async () => {
    const parts = await mountShell('#practise');
    await expect.element(text('settings')).toBeInTheDocument();
    await text('start').click();
    expect(parts.session.status).toBe('playing');
    await expect.element(text('start')).toHaveTextContent('Stop');
    await expect.element(text('settings')).not.toBeInTheDocument();
    await text('start').click();
    expect(parts.session.status).toBe('idle');
  });

  it('opens after the take what was open before it', async () => {
    await mountShell('#practise');
    await text('players').getByText('Playing:').click();
    await text('start').click();
    await text('start').click();
    await expect.element(text('players')).toHaveAttribute('open');
    await expect.element(text('settings')).not.toHaveAttribute('open');
  });

  it('comes back to the lane when it starts', async () => {
    await mountShell('#practise');
    await text('settings').getByText('Settings:').click();
    scrollTo({ top: 300 });
    expect(scrollY).toBeGreaterThan(0);
    (document.activeElement as HTMLElement).blur();
    await userEvent.keyboard(' ');
    await expect.poll(() => scrollY).toBe(0);
  });

  it('reads a cycle aloud in whole words', async () => {
    const parts = await mountShell('#practise');
    const said = text('cycle-announcement');
    parts.session.stats = sampleStats();
    await expect
      .element(said)
      .toHaveTextContent('Cycle 9: 17 of 20 as written, 3 milliseconds late on average.');
    parts.session.stats = sampleStats({ lastCycle: figures({ meanMs: undefined }) });
    await expect.element(said).toHaveTextContent(/as written\.$/);
    parts.session.stats = sampleStats({ lastCycle: figures({ meanMs: -0.4 }) });
    await expect.element(said).toHaveTextContent('neither early nor late');
  });

  it('starts with the space bar, but not from a field nor when it is the bass drum', async () => {
    const parts = await mountShell('#practise');
    (document.activeElement as HTMLElement | null)?.blur();
    await userEvent.keyboard(' ');
    expect(parts.session.status).toBe('playing');
    await userEvent.keyboard(' ');
    expect(parts.session.status).toBe('idle');

    await text('tempo').click();
    await userEvent.keyboard(' ');
    expect(parts.session.status).toBe('idle');

    (document.activeElement as HTMLElement).blur();
    parts.inputs.choosePlayer('keyboard and pads');
    await userEvent.keyboard(' ');
    expect(parts.session.status).toBe('idle');
  });

  it('strikes pads louder in the middle than at the edge, and taps by keyboard', async () => {
    const parts = await mountShell('#practise', ({ inputs }) =>
      inputs.choosePlayer('keyboard and pads'),
    );
    const snare = page.getByRole('button', { name: 'snare', exact: true });
    const { width, height } = snare.element().getBoundingClientRect();
    await snare.click({ position: { x: width / 2, y: height / 2 } });
    await snare.click({ position: { x: width / 2, y: 3 } });
    (snare.element() as HTMLElement).focus();
    await userEvent.keyboard('{Enter}');
    const velocities = parts.inputs.struck.map(({ velocity }) => velocity);
    expect(parts.inputs.struck.map(({ voice }) => voice)).toEqual(['snare', 'snare', 'snare']);
    expect(velocities[0]).toBeGreaterThanOrEqual(95);
    expect(velocities[1]).toBeLessThanOrEqual(50);
    expect(velocities[2]).toBeGreaterThan(50);
    expect(velocities[2]).toBeLessThan(95);
  });

  it('changes what is judged and heard through the settings', async () => {
    const parts = await mountShell('#practise');
    await text('settings').getByText('Settings:').click();
    await page.getByRole('radio', { name: '2 and 4' }).click();
    await page.getByRole('radio', { name: 'both' }).click();
    expect(parts.session.choices.click).toEqual({ follows: 'both', beats: '2 and 4' });
    await page.getByRole('switch', { name: /^When a layer is passed/ }).click();
    expect(parts.session.choices.moveOn).toBe(true);
    await page.getByRole('switch', { name: /page still/ }).click();
    expect(parts.session.choices.stillPage).toBe(true);
    await expect.element(text('settings')).toHaveTextContent(/still page/);
    await page.getByLabelText('Tolerance, ms').fill('50');
    await userEvent.tab();
    expect(parts.session.choices.windows).toEqual({ toleranceMs: 50 });
    await page.getByLabelText('Tolerance, ms').fill('');
    await userEvent.tab();
    expect(parts.session.choices.windows).toEqual({});
  });

  it('offers the tempo of a MIDI file that is at another', async () => {
    const parts = await mountShell('#practise', ({ inputs }) => {
      inputs.choosePlayer('file');
      inputs.file = {
        name: 'tide-table.mid',
        tempoBpm: 115.7,
        kitTitle: 'General MIDI percussion',
      };
    });
    await text('players').getByText('Playing:').click();
    await page.getByRole('button', { name: 'Practise at 116 bpm' }).click();
    expect(parts.session.choices.tempoBpm).toBe(116);
    await expect.element(page.getByRole('button', { name: /Practise at/ })).not.toBeInTheDocument();
  });

  it('dials the simulated player', async () => {
    const parts = await mountShell('#practise', ({ inputs }) =>
      inputs.choosePlayer('simulated player'),
    );
    await text('players').getByText('Playing:').click();
    await text('simulated-faults').getByText('What the simulated').click();
    await page.getByRole('slider', { name: /^missed/ }).fill('0.1');
    expect(parts.inputs.faults.missed).toBe(0.1);
    await page.getByRole('slider', { name: /^missed/ }).fill('0');
    expect(parts.inputs.faults).not.toHaveProperty('missed');
    await page.getByRole('slider', { name: /^loses the place/ }).fill('4');
    // One sixteenth at 96: 60 000 / 96 / 4 = 156.25 ms.
    expect(parts.inputs.faults.lostPlace).toEqual({ afterCycles: 4, slipMs: 156 });
  });

  it('says what changes next, and where', async () => {
    const parts = await mountShell('#practise');
    parts.session.status = 'playing';
    parts.session.stats = sampleStats();
    parts.session.choose({ layer: 4 });
    const bar3 = parts.session.lane!.marks.find(({ kind, bar }) => kind === 'bar' && bar === 3)!;
    parts.session.upcoming = [{ layer: 4, bar: 3, atUs: bar3.timeUs }];
    await expect.element(text('upcoming')).toHaveTextContent('layer 4 from bar 3');
    await expect.element(text('layer-step').nth(3)).toHaveTextContent('from bar 3');
    await expect.element(text('layer-step').nth(3)).not.toHaveAttribute('aria-current');
    await expect.element(text('layer-step').nth(2)).toHaveTextContent('now');
    parts.session.upcoming = [
      { bpm: 104, atUs: bar3.timeUs - 1 },
      { layer: 4, bar: 3, atUs: bar3.timeUs },
    ];
    await expect
      .element(text('upcoming'))
      .toHaveTextContent('104 bpm from bar 2, layer 4 from bar 3');
    parts.session.upcoming = [];
    await expect.poll(() => text('upcoming').element().textContent).toBe('');
  });
});
