import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import type { MidiStateKind } from '../../../src/midi/midi-problems';
import { mountShell } from '../mount-shell';
import type { StubParts } from '../stub-parts';

const ask = () => page.getByTestId('first-ask');
const under = () => page.getByTestId('first-under');
/** A stroke now, as far as the page's clock says. */
const strike = ({ inputs }: StubParts, note: number, velocity = 90, atMs = performance.now()) =>
  inputs.listener!(atMs, 0x99, note, velocity);
const padStates = () =>
  page
    .getByTestId('asked-pad')
    .elements()
    .map((one) => (one as HTMLElement).dataset['state']);

const atPads = async (prepare?: (parts: StubParts) => void) => {
  const parts = await mountShell('#kit/first-start', prepare);
  await expect.element(ask()).toHaveTextContent('Strike any pad.');
  strike(parts, 38);
  await expect.element(ask()).toHaveTextContent('Play the bass drum.');
  // Struck on before it could be read.
  strike(parts, 43, 90, performance.now() + 500);
  await expect.element(ask()).toHaveTextContent('Play the bass drum.');
  return parts;
};

describe('who plays', () => {
  it('is asked until it is answered, with one press', async () => {
    const { inputs } = await mountShell('#practise', ({ inputs }) => {
      inputs.isUnasked = true;
    });
    const question = page.getByTestId('who-plays');
    await expect.element(question).toBeVisible();
    await expect.element(page.getByTestId('finding')).toHaveTextContent('Nothing played yet.');
    await question.getByRole('button', { name: 'A simulated player' }).click();
    await expect.element(question).not.toBeInTheDocument();
    expect(inputs.player).toBe('simulated player');
  });

  it('is not asked again on request, and the kit stays', async () => {
    const { inputs } = await mountShell('#practise', ({ inputs }) => {
      inputs.isUnasked = true;
      inputs.port.kind = 'ask';
    });
    await page.getByRole('button', { name: 'Do not ask again' }).click();
    await expect.element(page.getByTestId('who-plays')).not.toBeInTheDocument();
    expect(inputs.player).toBe('kit');
    await expect.element(page.getByTestId('midi-connect').first()).toBeVisible();
  });

  it('does not stand in the way of who has said it', async () => {
    await mountShell('#practise');
    await expect.element(page.getByTestId('start')).toBeVisible();
    expect(page.getByTestId('who-plays').query()).toBeNull();
  });
});

describe('setting up a kit', () => {
  it.each<MidiStateKind>(['unsupported', 'denied', 'no device', 'busy', 'unplugged'])(
    'says where the kit is and how to go on without it: %s',
    async (kind) => {
      const { inputs } = await mountShell('#kit/first-start', ({ inputs }) => {
        inputs.port.kind = kind;
      });
      await expect.element(ask()).toHaveTextContent(inputs.port.state.sentence);
      await expect.element(under()).toHaveTextContent(inputs.port.state.remedy);
      await page.getByRole('button', { name: /keyboard or the screen/ }).click();
      expect(inputs.player).toBe('keyboard and pads');
      await expect.element(page.getByTestId('start')).toBeVisible();
    },
  );

  it('asks for the pads of the phrase, puts their notes right, and says what is missing', async () => {
    const parts = await atPads();
    const base = performance.now() + 1000;
    strike(parts, 36, 90, base);
    strike(parts, 31, 90, base + 1000);
    strike(parts, 48, 90, base + 2000);
    await expect.element(ask()).toHaveTextContent('Strike the floor tom.');
    expect(padStates()).toEqual(['struck', 'struck', 'struck', 'now']);
    // The last pad again: there is none.
    strike(parts, 48, 90, base + 3000);
    await expect.element(under()).toHaveTextContent(/^Not on your kit: floor tom\./);
    expect(padStates()).toEqual(['struck', 'struck', 'struck', 'none']);
    expect(parts.inputs.saved?.title).toBe('Common electronic kit, my pads');
    expect(parts.inputs.saved?.pads.find(({ note }) => note === 31)?.voice).toBe('snare');
    expect(parts.firstStart.stateOf('pads')).toBe('done');
    strike(parts, 36, 90, performance.now() + 2000);
    await expect.element(ask()).toHaveTextContent(/ghosts/);
  });

  it('asks again for the pads that nobody struck, and only for those', async () => {
    const parts = await atPads();
    const base = performance.now() + 1000;
    // The stub sends to who listens last, which the button to go on is for a while.
    const send = parts.inputs.listener!;
    for (const [i, note] of [36, 38, 48, 48].entries()) send(base + 1000 * (i + 1), 0x99, note, 90);
    await expect.element(under()).toHaveTextContent(/^Not on your kit: floor tom\./);
    await page.getByRole('button', { name: 'Ask again' }).click();
    await expect.element(ask()).toHaveTextContent('Strike the floor tom.');
    expect(padStates()).toEqual(['now']);
    send(performance.now() + 6000, 0x99, 43, 90);
    await expect.element(ask()).toHaveTextContent(/ghosts/);
    expect(parts.firstStart.lacking(['floor tom'])).toEqual([]);
  });

  it('goes on at once where nothing is missing and nothing has to be known', async () => {
    const parts = await atPads();
    const base = performance.now() + 1000;
    for (const [i, note] of [36, 38, 48, 43].entries())
      strike(parts, note, 90, base + 1000 * (i + 1));
    await expect.element(ask()).toHaveTextContent(/ghosts/);
    expect(parts.inputs.saved).toBeUndefined();
  });

  it('takes levels on one pad for those like it, and asks again where they overlap', async () => {
    const parts = await mountShell('#kit/first-start');
    await page.getByTestId('step-levels').click();
    let atMs = performance.now() + 1000;
    const strikeAll = (note: number, velocities: readonly number[]) => {
      for (const velocity of velocities) strike(parts, note, velocity, (atMs += 100));
    };
    strikeAll(38, Array<number>(18).fill(60));
    await expect.element(ask()).toHaveTextContent('overlap');
    strikeAll(38, [20, 22, 24, 26, 28, 30, 60, 62, 64, 66, 68, 70]);
    await expect.element(ask()).toHaveTextContent('accents');
    // The foot is not asked for a level, nor is another pad than the first.
    strikeAll(44, [127]);
    strikeAll(43, [127]);
    strikeAll(38, [100, 102, 104, 106, 108, 110]);
    await expect.element(under()).toHaveTextContent(/44.*85.*snare head and the pads like it/);
    const { pads } = parts.inputs.saved!;
    expect(pads.filter(({ ghostMax }) => ghostMax === 44).map(({ note }) => note)).toEqual([
      38, 48, 45, 43, 41,
    ]);
  });

  it('counts no stroke that comes while the levels are being kept', async () => {
    let store = () => {};
    const stored = new Promise<void>((resolve) => (store = resolve));
    const parts = await mountShell('#kit/first-start', ({ inputs }) => {
      const saveKit = inputs.saveKit.bind(inputs);
      inputs.saveKit = async (kit) => {
        await stored;
        return saveKit(kit);
      };
    });
    await page.getByTestId('step-levels').click();
    const base = performance.now() + 1000;
    const velocities = [
      20, 22, 24, 26, 28, 30, 60, 62, 64, 66, 68, 70, 100, 102, 104, 106, 108, 110,
    ];
    for (const [i, velocity] of velocities.entries()) strike(parts, 38, velocity, base + 100 * i);
    strike(parts, 38, 110, base + 3000);
    store();
    await expect.element(ask()).toHaveTextContent('Strike any pad to go on.');
    await expect.element(under()).toHaveTextContent(/44.*85/);
  });

  it('keeps an offset that was played, and does not keep one that came to nothing', async () => {
    const { calibration, inputs } = await mountShell('#kit/first-start');
    await page.getByTestId('step-offset').click();
    await expect.element(ask()).toHaveTextContent('hear the click');
    inputs.listener!(performance.now() + 500, 0x99, 38, 90);
    expect(calibration.played.phase).toBe('idle');
    inputs.listener!(performance.now() + 1500, 0x99, 38, 90);
    await expect.element(ask()).toHaveTextContent('every click');
    calibration.played.phase = 'done';
    calibration.played.estimate = {
      outcome: 'refused',
      why: 'too few',
      sentence: 'Too few strokes.',
      histogram: [],
    };
    await expect.element(under()).toHaveTextContent('Too few strokes.');
    calibration.played.estimate = {
      outcome: 'estimated',
      deviceAndHabitMs: 12,
      lowerMs: 8,
      upperMs: 16,
      spreadMs: 9,
      strokes: 24,
      warmUp: 4,
      wild: 0,
      histogram: [],
    };
    await page.getByTestId('go-on').click();
    expect(calibration.rigs.kept).toMatchObject([{ deviceOffsetMs: 12, method: 'from playing' }]);
    await expect.element(ask()).toHaveTextContent('Strike any pad to start.');
  });

  it('starts on a stroke after a pause, and not on playing that goes on', async () => {
    const parts = await mountShell('#kit/first-start', ({ firstStart }) => {
      for (const step of ['kit', 'pads'] as const) firstStart.finish(step);
      firstStart.leaveOut('levels', 'offset');
    });
    await expect.element(ask()).toHaveTextContent('Strike any pad to start.');
    const base = performance.now();
    for (let i = 1; i <= 6; i++) strike(parts, 38, 90, base + 600 * i);
    strike(parts, 38, 90, base + 3600 + 899);
    expect(parts.session.status).toBe('idle');
    strike(parts, 38, 90, base + 3600 + 899 + 900);
    await expect.element(page.getByTestId('start')).toBeVisible();
    expect(parts.firstStart.stateOf('play')).toBe('done');
  });

  it('leaves levels and offset out with one press', async () => {
    const parts = await atPads();
    await page.getByTestId('straight').click();
    await expect.element(ask()).toHaveTextContent('Strike any pad to start.');
    expect(parts.firstStart.stateOf('levels')).toBe('skipped');
    expect(parts.firstStart.stateOf('offset')).toBe('skipped');
  });

  it('says when the kit is unplugged on the way, and waits for nobody then', async () => {
    const { inputs } = await atPads();
    inputs.port.kind = 'unplugged';
    await expect.element(page.getByRole('alert')).toHaveTextContent('Boathouse kit is unplugged.');
    expect(page.getByTestId('wait-line').query()).toBeNull();
  });

  it('asks for what a phrase needs first, and for no other pad', async () => {
    const parts = await mountShell('#kit/first-start', ({ firstStart }) => {
      for (const step of ['kit', 'pads'] as const) firstStart.finish(step);
      firstStart.rememberPads({ has: ['snare', 'bass drum', 'high tom'], lacks: [] });
    });
    await expect.element(ask()).toHaveTextContent('Strike the floor tom.');
    expect(padStates()).toEqual(['now']);
    // The snare is no floor tom.
    strike(parts, 38, 90, performance.now() + 1000);
    await expect.element(under()).toHaveTextContent(/^Not on your kit: floor tom\./);
    expect(parts.inputs.saved).toBeUndefined();
  });

  it('is offered on Practise when a phrase first needs a pad', async () => {
    await mountShell('#practise', ({ firstStart }) => {
      firstStart.rememberPads({ has: ['snare', 'bass drum', 'high tom'], lacks: [] });
    });
    await expect
      .element(page.getByTestId('pads-to-strike'))
      .toHaveTextContent('New in this phrase: floor tom. Strike it once');
  });
});

describe('waiting', () => {
  beforeEach(
    () => void vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval', 'performance'] }),
  );
  afterEach(() => void vi.useRealTimers());

  it('leaves out pad by pad, then levels, then the offset', async () => {
    const parts = await atPads();
    await vi.advanceTimersByTimeAsync(1000);
    strike(parts, 36);
    await expect.element(ask()).toHaveTextContent('Strike the snare.');
    await vi.advanceTimersByTimeAsync(7600);
    await expect.element(ask()).toHaveTextContent('Strike the snare.');
    await vi.advanceTimersByTimeAsync(800);
    await expect.element(ask()).toHaveTextContent('Strike the high tom.');
    strike(parts, 48);
    strike(parts, 43, 90, performance.now() + 500);
    await expect.element(under()).toHaveTextContent(/^Not on your kit: snare\./);
    await page.getByTestId('go-on').click();
    await expect.element(ask()).toHaveTextContent('ghosts');
    await vi.advanceTimersByTimeAsync(8400);
    await expect.element(ask()).toHaveTextContent('hear the click');
    await vi.advanceTimersByTimeAsync(8400);
    await expect.element(ask()).toHaveTextContent('Strike any pad to start.');
  });
});
