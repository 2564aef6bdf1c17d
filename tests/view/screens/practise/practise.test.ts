import { beats } from '../../../../src/time/beats';
import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { MIDI_STATES } from '../../../../src/midi/midi-problems';
import { gateWords } from '../../../../src/coach/gate-words';
import { setAsideWords, wrongVoicesWords } from '../../../../src/coach/stray-words';
import { beatWord } from '../../../../src/phrase/model/beat-word';
import { cycleWords } from '../../../../src/view/screens/practise/words/feedback-words';
import {
  upcomingWords,
  whereWords,
} from '../../../../src/view/screens/practise/words/upcoming-words';
import { voiceNumber } from '../../../../src/phrase/model/voice';
import { mountShell } from '../../mount-shell';
import { cycleStats, figures, layerRow, sampleStats } from '../../sample-stats';

const text = (testid: string) => page.getByTestId(testid);
/** Unfolds a block, as a click on its summary does. */
const opened = async (testid: string) => {
  await expect.element(text(testid)).toBeInTheDocument();
  text(testid).element().querySelector('summary')!.click();
};

/** Until the page is laid out again. */
const frame = () => new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));

describe('the practise screen', () => {
  it('shows phrase, tempo and layers, and dashes before anything was played', async () => {
    await mountShell('#practise');
    await expect.element(page.getByRole('heading', { level: 1 })).toHaveTextContent('Quay Steps');
    await expect.element(text('tempo')).toHaveValue(96);
    for (const figure of ['as-written', 'missed', 'offset', 'spread', 'contrast', 'extras'])
      await expect.element(text(`figure-${figure}`)).toHaveTextContent('–');
    expect(text('upcoming').query()).toBeNull();
  });

  it('shows the figures of the last cycle, signed, with their side', async () => {
    const parts = await mountShell('#practise');
    parts.session.stats = sampleStats({
      lastCycles: cycleStats({ figures: figures({ missed: 3 }) }),
    });
    await expect.element(text('figure-as-written')).toHaveTextContent(/^17\b.*\b20$/);
    await expect.element(text('figure-offset')).toHaveTextContent('+3');
    await expect.element(text('figure-offset')).toHaveClass('late');
    await expect.element(text('figure-missed')).toHaveTextContent('3');
    await expect.element(text('figure-spread')).toHaveTextContent('9');
    await expect.element(text('figure-contrast')).toHaveTextContent('17.8');
    await expect.element(text('figure-extras')).toHaveTextContent('2');
    await expect.element(text('finding')).toHaveTextContent(sampleStats().finding);
    const { gate, wrongVoices, setAside } = sampleStats();
    await expect.element(text('gate')).toHaveTextContent(gateWords(gate));
    const remarks = text('remark').elements();
    expect(remarks.map((remark) => remark.textContent)).toEqual([
      ...wrongVoicesWords(wrongVoices),
      ...setAsideWords(setAside),
    ]);
    expect(remarks).toHaveLength(2);

    const flat = [{ pad: 38, velocity: 100, notes: 24, still: true }];
    parts.session.stats = sampleStats({ padsWithoutLevels: flat });
    await expect
      .element(text('remark').first())
      .toHaveTextContent(
        'Snare head sends one velocity (100): the level of 24 notes there is not judged.',
      );

    parts.session.stats = sampleStats({
      lastCycles: cycleStats({
        figures: figures({ meanMs: undefined, spreadMs: undefined, asWritten: 0 }),
        dynamics: { contrastDb: undefined, separation: undefined, accents: 0, ghosts: 0 },
      }),
    });
    await expect.element(text('figure-offset')).toHaveTextContent('–');
    await expect.element(text('figure-spread')).toHaveTextContent('–');
    await expect.element(text('figure-contrast')).toHaveTextContent('–');
    await expect.element(text('figure-as-written')).toHaveTextContent(/^0\b.*\b20$/);
  });

  it('leads to the kit before the start where another would play', async () => {
    const parts = await mountShell('#practise');
    const advice = text('advice');
    await expect.element(advice).toHaveTextContent(/\S/);
    expect(advice.getByRole('link').query()).toBeNull();
    parts.inputs.choosePlayer('simulated player');
    await expect.element(advice.getByRole('link')).toHaveAttribute('href', '#kit');
    parts.inputs.choosePlayer('file');
    await expect.element(advice.getByRole('link')).not.toBeInTheDocument();
  });

  it('says that the kit is away in place of figures nobody played, and goes back to them', async () => {
    const parts = await mountShell('#practise');
    parts.session.status = 'playing';
    parts.session.stats = sampleStats();
    parts.inputs.port.kind = 'unplugged';
    await expect.element(text('finding')).toHaveTextContent('Boathouse kit');
    await expect.element(text('advice')).toHaveTextContent(MIDI_STATES.unplugged.remedy);
    parts.inputs.port.kind = 'ready';
    await expect.element(text('finding')).toHaveTextContent(sampleStats().finding);
    parts.inputs.port.kind = 'ask';
    await expect.element(text('advice').getByRole('link')).toHaveAttribute('href', '#kit');
  });

  it('tells a cycle without a single stroke as silence, not as missed notes', async () => {
    const parts = await mountShell('#practise');
    parts.session.status = 'playing';
    parts.session.stats = sampleStats({
      lastCycles: cycleStats({
        figures: figures({ answered: 0, timed: 0, missed: 20, asWritten: 0 }),
        toCycle: 2,
      }),
      extras: 0,
      overall: figures({ answered: 0, timed: 0, missed: 40, asWritten: 0 }),
    });
    await expect.element(text('advice').getByRole('link')).toHaveAttribute('href', '#kit');
    expect(text('finding').element().textContent).not.toBe(sampleStats().finding);
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
      .toHaveTextContent(/1 Sticking.*97.*−2 ms,.* 9 ms.*–/);
    await expect.element(text('layer-row').nth(1)).toHaveTextContent(/2 Accents.*–.*– ms/);
  });

  it('says what the contrast of a layer with one level only is against', async () => {
    const parts = await mountShell('#practise');
    parts.session.stats = sampleStats({
      layers: [
        layerRow(1, 'Sticking', { contrastDb: 14.1 }),
        layerRow(2, 'Accents', { contrastDb: 17.8, against: 'ghosts' }),
        layerRow(3, 'Ghosts', { contrastDb: 17.8, against: 'accents' }),
      ],
    });
    await expect.element(text('layer-row').nth(0)).toHaveTextContent(/14\.1$/);
    await expect.element(text('layer-row').nth(1)).toHaveTextContent(/17\.8\* over all ghosts$/);
    await expect.element(text('layer-row').nth(2)).toHaveTextContent(/17\.8† under all accents$/);
    await expect
      .element(text('contrast-notes'))
      .toHaveTextContent(/^\* over all ghosts\s*† under all accents$/);
  });

  it('answers on the line of the buttons what a press came to, and says it once', async () => {
    const parts = await mountShell('#practise');
    parts.session.stats = sampleStats();
    parts.session.status = 'playing';
    const said = text('cycle-announcement');
    await page.getByRole('button', { name: 'Count from now on' }).click();
    await expect.element(text('answer')).toHaveTextContent('It counts from here on.');
    await page.getByRole('button', { name: 'Leave this bar out' }).click();
    await expect.element(text('answer')).toHaveTextContent('Bar 12 does not count.');
    await expect.element(said, { timeout: 5000 }).toHaveTextContent('Bar 12 does not count.');
    await expect.poll(() => text('answer').query(), { timeout: 8000 }).toBeNull();
  });

  it.each([
    [1920, 1080],
    [1440, 900],
    [1280, 640],
    [1024, 768],
    [768, 1024],
    [390, 844],
  ])('leaves the lane where it is at start and stop, at %i × %i', async (width, height) => {
    await page.viewport(width, height);
    const parts = await mountShell('#practise');
    await expect.element(page.getByRole('img', { name: /^Lane/ })).toBeVisible();
    const laneTop = async () => {
      await frame();
      return page.getByRole('img', { name: /^Lane/ }).element().getBoundingClientRect().top;
    };
    const atRest = await laneTop();
    parts.session.status = 'playing';
    await expect.element(page.getByRole('button', { name: 'Stop' })).toBeVisible();
    expect(await laneTop()).toBe(atRest);
    parts.session.upcoming = [{ layer: 3, bar: 14, hasPickup: true, atUs: 4_000_000 }];
    await expect.element(text('upcoming')).toHaveTextContent('bar 14');
    expect(await laneTop()).toBe(atRest);
    parts.session.status = 'idle';
    await expect.element(page.getByRole('button', { name: 'Start' })).toBeVisible();
    parts.session.upcoming = [];
    expect(await laneTop()).toBe(atRest);
    await page.viewport(1440, 900);
  });

  it.each(['Even.', sampleStats().finding, 'Snare struck in place of the bass drum, 15 times.'])(
    'shows lane and sentence together at twice the size on 1440 × 900: %s',
    async (finding) => {
      await page.viewport(720, 450);
      const parts = await mountShell('#practise', ({ session }) => {
        session.stats = sampleStats({ finding });
      });
      await expect.element(page.getByRole('img', { name: /^Lane/ })).toBeVisible();
      parts.session.status = 'playing';
      await expect.element(page.getByRole('button', { name: 'Stop' })).toBeVisible();
      await frame();
      const lane = page.getByRole('img', { name: /^Lane/ }).element().getBoundingClientRect();
      const sentence = text('finding').element().getBoundingClientRect();
      expect(lane.top).toBeGreaterThanOrEqual(0);
      // A page is scrolled by whole pixels.
      expect(sentence.bottom).toBeLessThan(451);
      expect(sentence.top).toBeGreaterThanOrEqual(lane.bottom);
      await page.viewport(1440, 900);
    },
  );

  it.each([
    [320, 568],
    [390, 664],
    [390, 844],
    [844, 390],
    [768, 1024],
    [1440, 900],
  ])(
    'has the lane and every pad in sight while they are played, at %i × %i',
    async (width, height) => {
      await page.viewport(width, height);
      const parts = await mountShell('#practise', ({ inputs, session }) => {
        inputs.choosePlayer('keyboard and pads');
        session.choose({ layer: session.phrase!.layers.length });
      });
      await expect.element(page.getByTestId('pad').first()).toBeVisible();
      parts.session.status = 'playing';
      const stop = page.getByRole('button', { name: 'Stop' });
      await expect.element(stop).toBeVisible();
      await frame();
      const boxOf = (element: Element) => element.getBoundingClientRect();
      const lane = boxOf(page.getByRole('img', { name: /^Lane/ }).element());
      const pads = page.getByTestId('pad').elements().map(boxOf);
      const button = boxOf(stop.element());
      const bar = button.top > height / 2 ? button.top : height;
      expect(lane.top).toBeGreaterThan(-1);
      expect(lane.height).toBeGreaterThanOrEqual(180);
      expect(pads.length).toBeGreaterThan(5);
      for (const pad of pads) {
        expect(Math.min(pad.width, pad.height)).toBeGreaterThanOrEqual(44);
        expect(pad.top).toBeGreaterThanOrEqual(lane.bottom);
        expect(pad.bottom).toBeLessThanOrEqual(bar);
      }
      expect(Math.min(button.width, button.height)).toBeGreaterThanOrEqual(44);
      expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(width);
      await page.viewport(1440, 900);
    },
  );

  it('has the next layer in sight on a phone, once one is passed', async () => {
    await page.viewport(390, 844);
    await mountShell('#practise', ({ session }) => {
      session.choose({ layer: 3 });
      session.status = 'playing';
      session.stats = sampleStats();
      session.justPassed = 3;
      session.passed = [{ layer: 3, bpm: 96 }];
    });
    await expect.element(text('next-layer')).toBeVisible();
    const bar = text('start').element().parentElement!;
    await expect
      .poll(() => text('next-layer').element().getBoundingClientRect().bottom)
      .toBeLessThanOrEqual(bar.getBoundingClientRect().top);
    await page.viewport(1440, 900);
  });

  it('says that a pad is not on the kit until a take has strokes of it', async () => {
    const parts = await mountShell('#practise', ({ firstStart, session }) => {
      firstStart.rememberPads({ has: ['high tom', 'floor tom'], lacks: ['snare', 'bass drum'] });
      session.lane = {
        ...session.lane!,
        strokeCount: 1,
        strokeVoice: Uint8Array.of(voiceNumber('bass drum'), voiceNumber('snare')),
      };
      session.playedBy = 'simulated player';
    });
    await expect
      .element(text('pads-lacking'))
      .toHaveTextContent('Not on your kit: snare, bass drum.');
    parts.session.playedBy = 'kit';
    await expect.element(text('pads-lacking')).toHaveTextContent('Not on your kit: snare.');
  });

  it('says over which bars the rows count, and whose notes', async () => {
    const parts = await mountShell('#practise');
    const table = page.getByRole('table', { name: /notes each layer added or changed$/ });
    await expect.element(table).toBeInTheDocument();
    parts.session.stats = sampleStats({ bars: { from: 6, to: 11 } });
    await expect.element(page.getByText(/added or changed, bars 6 to 11$/)).toBeVisible();
    parts.session.stats = sampleStats({ bars: { from: 6, to: 6 } });
    await expect.element(page.getByText(/added or changed, bar 6$/)).toBeVisible();
  });

  it('tells which layers are passed, played now, and still to come', async () => {
    const parts = await mountShell('#practise');
    parts.session.passed = [{ layer: 1, bpm: 88 }];
    parts.session.choose({ layer: 2 });
    const steps = text('layer-step');
    for (const [i, state] of ['passed at 88', 'now', 'not yet played'].entries())
      await expect.element(steps.nth(i)).toHaveTextContent(state);
    await expect.element(steps.nth(0)).not.toHaveAttribute('aria-current');
    await expect.element(steps.nth(1)).toHaveAttribute('aria-current', 'step');
    await steps.nth(3).click();
    expect(parts.session.choices.layer).toBe(4);
  });

  it('refuses a tempo out of range and keeps the one before', async () => {
    const parts = await mountShell('#practise');
    await text('tempo').fill('301');
    await userEvent.tab();
    await expect.element(page.getByRole('alert')).toBeVisible();
    await expect.element(text('tempo')).toHaveAttribute('aria-invalid', 'true');
    expect(parts.session.choices.tempoBpm).toBe(96);
    await text('tempo').fill('120');
    await userEvent.tab();
    expect(parts.session.choices.tempoBpm).toBe(120);
    await page.getByRole('button', { name: 'Slower' }).click();
    expect(parts.session.choices.tempoBpm).toBe(119);
  });

  it('says what the tempo counts where that is not quarters', async () => {
    const parts = await mountShell('#practise');
    await expect.element(text('tempo')).toHaveAccessibleName('tempo, bpm');
    const eighths = parts.library.find('crooked-pier')!;
    parts.session.choosePhrase(eighths);
    await expect
      .element(text('tempo'))
      .toHaveAccessibleName(new RegExp(`^tempo, bpm in ${beatWord(eighths.phrase.meter)}$`));
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
    await expect.element(text('settings')).not.toBeInTheDocument();
    await text('start').click();
    expect(parts.session.status).toBe('idle');
  });

  it('opens after the take what was open before it', async () => {
    await mountShell('#practise');
    await opened('players');
    await text('start').click();
    await text('start').click();
    await expect.element(text('players')).toHaveAttribute('open');
    await expect.element(text('settings')).not.toHaveAttribute('open');
  });

  it('comes back to the lane when it starts', async () => {
    await mountShell('#practise');
    await opened('settings');
    scrollTo({ top: 300 });
    expect(scrollY).toBeGreaterThan(0);
    (document.activeElement as HTMLElement).blur();
    await userEvent.keyboard(' ');
    await expect.poll(() => scrollY).toBe(0);
  });

  it('reads each cycle aloud, once it is over', async () => {
    const parts = await mountShell('#practise');
    const said = text('cycle-announcement');
    parts.session.stats = sampleStats();
    await expect.element(said).toHaveTextContent(cycleWords(cycleStats()));
    await expect.element(said).toHaveAttribute('aria-live', 'polite');
  });

  it('says in one message what comes at once, and has no other voice while it plays', async () => {
    const parts = await mountShell('#practise');
    parts.session.status = 'playing';
    parts.session.stats = sampleStats();
    parts.inputs.monitor.unknown = [{ note: 31, strokes: 5 }];
    await expect
      .element(text('cycle-announcement'))
      .toHaveTextContent(
        `Playing. ${cycleWords(cycleStats())} Note 31, struck 5 times, is not on your kit's map.`,
      );
    const live = [
      ...document.querySelectorAll('main :is([aria-live], [role=status], [role=alert])'),
    ];
    expect(live.filter(({ textContent }) => textContent?.trim() !== '')).toEqual([
      text('cycle-announcement').element(),
    ]);
  });

  it('offers the voices of the phrase for a note that the map does not know', async () => {
    const { inputs } = await mountShell('#practise', ({ inputs, session }) => {
      inputs.monitor.unknown = [
        { note: 31, strokes: 5 },
        { note: 91, strokes: 1 },
      ];
      session.status = 'playing';
    });
    await expect.element(text('finding')).toHaveTextContent('Note 31, struck 5 times');
    await page.getByRole('group', { name: 'Note 31 is' }).getByText('snare').click();
    expect(inputs.mapped).toEqual([{ note: 31, voice: 'snare' }]);
    await expect.element(text('new-notes')).toHaveTextContent('Note 31 is snare from now on');
    await page.getByLabelText('or another voice').selectOptions('cowbell');
    await page.getByRole('button', { name: 'Put it on the note map' }).click();
    expect(inputs.mapped.at(-1)).toEqual({ note: 31, voice: 'cowbell' });
    await page.getByRole('button', { name: 'It is no pad' }).click();
    await expect.element(text('finding')).toHaveTextContent('Note 91, struck once');
  });

  it('shows at rest what was struck last, and not while it plays', async () => {
    const { inputs, session } = await mountShell('#practise');
    const check = text('sound-check');
    await expect.element(check).toHaveTextContent('Strike something');
    inputs.monitor.heard = { note: 38, voice: 'snare', velocity: 64 };
    await expect.element(check).toHaveTextContent('snare, tap, velocity 64');
    inputs.monitor.heard = { note: 31, voice: undefined, velocity: 20 };
    await expect.element(check).toHaveTextContent('note 31, not on the note map, velocity 20');
    session.status = 'playing';
    await expect.element(check).not.toBeInTheDocument();
    session.status = 'idle';
    inputs.choosePlayer('simulated player');
    await expect.element(check).not.toBeInTheDocument();
  });

  it('has the button that a kit which is not connected asks for', async () => {
    const { inputs } = await mountShell('#practise', (parts) => {
      parts.inputs.port.kind = 'ask';
    });
    await expect.element(text('advice')).toHaveTextContent(/^Press the button/);
    await text('midi-connect').first().click();
    expect(inputs.port.state.kind).toBe('ready');
    await expect.element(text('advice')).toHaveTextContent('Press start');
    expect(text('midi-connect').query()).toBeNull();
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
    await opened('settings');
    await page.getByRole('radio', { name: '2 and 4' }).click();
    await page.getByRole('radio', { name: 'both' }).click();
    expect(parts.session.choices.click).toEqual({ follows: 'both', beats: '2 and 4' });
    await page.getByRole('switch', { name: /^When a layer is passed/ }).click();
    expect(parts.session.choices.moveOn).toBe(true);
    await page.getByRole('switch', { name: /page still/ }).click();
    expect(parts.session.choices.stillPage).toBe(true);
    await page.getByLabelText('In time up to, ms').fill('50');
    await userEvent.tab();
    expect(parts.session.choices.windows).toEqual({ toleranceMs: 50 });
    await page.getByLabelText('In time up to, ms').fill('');
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
    await opened('players');
    await page.getByRole('button', { name: /\b116\b/ }).click();
    expect(parts.session.choices.tempoBpm).toBe(116);
    await expect.element(page.getByRole('button', { name: /\b116\b/ })).not.toBeInTheDocument();
  });

  it('dials the simulated player', async () => {
    const parts = await mountShell('#practise', ({ inputs }) =>
      inputs.choosePlayer('simulated player'),
    );
    await opened('players');
    text('simulated-faults').element().querySelector('summary')!.click();
    await page.getByRole('slider', { name: /^missed/ }).fill('0.1');
    expect(parts.inputs.faults.missed).toBe(0.1);
    await page.getByRole('slider', { name: /^missed/ }).fill('0');
    expect(parts.inputs.faults).not.toHaveProperty('missed');
    await page.getByRole('slider', { name: /^slips by one partial/ }).fill('4');
    // One sixteenth at 96: 60 000 / 96 / 4 = 156.25 ms.
    expect(parts.inputs.faults.lostPlace).toEqual({ afterCycles: 4, slipMs: 156 });
  });

  it('says what changes next, and where', async () => {
    const parts = await mountShell('#practise');
    parts.session.status = 'playing';
    parts.session.stats = sampleStats();
    parts.session.choose({ layer: 4 });
    const bar3 = parts.session.lane!.marks.find(({ kind, bar }) => kind === 'bar' && bar === 3)!;
    const layer = { layer: 4, bar: 3, hasPickup: false, atUs: bar3.timeUs };
    parts.session.upcoming = [layer];
    await expect.element(text('upcoming')).toHaveTextContent(upcomingWords(parts.session.upcoming));
    await expect.element(text('layer-step').nth(3)).toHaveTextContent(whereWords(layer));
    await expect.element(text('layer-step').nth(3)).not.toHaveAttribute('aria-current');
    parts.session.upcoming = [{ bpm: 104, bar: 2, beat: beats(3), atUs: bar3.timeUs - 1 }, layer];
    await expect.element(text('upcoming')).toHaveTextContent(upcomingWords(parts.session.upcoming));
    parts.session.upcoming = [];
    await expect.poll(() => text('upcoming').element().textContent).toBe('');
  });
});
